"""What the browser tests of the desk share: what was expected and did not hold, and waiting for what takes a while."""
import sys
import time
import traceback

failures = []


def expect(holds, what):
    if not holds:
        failures.append(what)
        where = ", ".join(f"line {f.lineno}" for f in traceback.extract_stack() if f.filename != __file__)
        print(f"FAILED: {what} ({where})", flush=True)


def until(act, what, seconds=30):
    """What `act` answers, as soon as that is something."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if found := act():
            return found
        time.sleep(0.05)
    expect(False, f"in {seconds} s: {what}")
    return None


def finish():
    print(f"{len(failures)} failures")
    sys.exit(1 if failures else 0)
