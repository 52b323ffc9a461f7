#!/usr/bin/python3
"""How fast, side by side: ours, CVODE, plain Odeint loops and SciPy on the same 1,000 launches, each at the coarsest of its
tolerances that keeps every carry within 1 mm; drives in lanes; whole commands; growth. Ratios of one run, as tables.

    proof.py BUILD_DIR
"""
import json
import math
import os
import pathlib
import resource
import subprocess
import sys
import time

build = pathlib.Path(sys.argv[1]).resolve()
proof = json.loads(subprocess.run([build / "tests/bench/loftwright_proof"], capture_output=True, text=True, check=True).stdout)

G, MASS, RADIUS, DECAY = 9.80665, 0.04593, 0.021335, 2.0e-5  # docs/model.md, section 4
AREA = math.pi * RADIUS**2


def air():
    """Density and viscosity of the standard day, as the program prints and docs/model.md writes them."""
    answer = json.loads(subprocess.run([build / "loftwright", "fly", "--ball-speed", "60m/s", "--launch", "12deg", "--spin", "2700rpm",
                                        "--json"], capture_output=True, text=True, check=True).stdout)
    return answer["conditions"]["air_density_kgpm3"], 1.458e-6 * 293.15**1.5 / (293.15 + 110.4)


def scipy_results():
    """SciPy's solve_ivp on a few of the launches; None when SciPy is missing."""
    try:
        from scipy.integrate import solve_ivp
    except ImportError:
        return None
    density, viscosity = air()
    lines = subprocess.run([build / "tests/bench/loftwright_proof", "--launches"], capture_output=True, text=True, check=True).stdout
    launches = [[float(x) for x in line.split()] for line in lines.splitlines()][:40]

    def fly(launch, method, tolerance):
        speed, up, azimuth, spin, tilt, _ = launch
        along = (math.cos(up) * math.cos(azimuth), math.sin(up), math.cos(up) * math.sin(azimuth))
        right = (-math.sin(azimuth), 0.0, math.cos(azimuth))
        c, s = math.cos(tilt), math.sin(tilt)
        cross = (right[1] * along[2] - right[2] * along[1], right[2] * along[0] - right[0] * along[2],
                 right[0] * along[1] - right[1] * along[0])
        ax, ay, az = (c * right[i] - s * cross[i] for i in range(3))

        def rates(_, y):
            vx, vy, vz, w = y[3], y[4], y[5], y[6]
            v = math.sqrt(vx * vx + vy * vy + vz * vz)
            ratio = min(w * RADIUS / v, 0.5)
            cd = 0.181 + 0.543 * ratio - 0.021 * (2 * density * v * RADIUS / viscosity / 1e5 - 1.5)
            cl = 0.7315 * ratio**0.628
            q = 0.5 * density * AREA / MASS * v
            return (vx, vy, vz, q * (cl * (ay * vz - az * vy) - cd * vx), q * (cl * (az * vx - ax * vz) - cd * vy) - G,
                    q * (cl * (ax * vy - ay * vx) - cd * vz), -DECAY / RADIUS * w * v)

        def ground(_, y):
            return y[1]

        ground.terminal, ground.direction = True, -1
        start = (0.0, 0.0, 0.0, *(speed * a for a in along), spin)
        done = solve_ivp(rates, (0.0, 60.0), start, method=method, rtol=tolerance, atol=tolerance, events=ground)
        return done.y_events[0][0][0], done.nfev

    out = []
    for method in ("RK45", "DOP853"):
        for tolerance in [10.0 ** (-k / 2) for k in range(4, 20)]:
            flown = [fly(launch, method, tolerance) for launch in launches]
            worst = max(abs(carry - launch[5]) for (carry, _), launch in zip(flown, launches))
            if worst < 1e-3:
                break
        times = []
        for _ in range(3):
            began = time.process_time()
            for launch in launches:
                fly(launch, method, tolerance)
            times.append((time.process_time() - began) / len(launches))
        out.append({"name": f"SciPy {method}", "tolerance": tolerance, "calls": sum(n for _, n in flown) / len(flown),
                    "worst_mm": 1e3 * worst, "ns": 1e9 * min(times)})
    return out


def command(*args, **kwargs):
    """Least wall time and least processor time of five runs [ms], the answer."""
    def spent():
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        return used.ru_utime + used.ru_stime

    wall = processor = math.inf
    for _ in range(5):
        began, had = time.perf_counter(), spent()
        done = subprocess.run([build / "loftwright", *args], capture_output=True, text=True)
        wall, processor = min(wall, 1e3 * (time.perf_counter() - began)), min(processor, 1e3 * (spent() - had))
    return wall, processor, done.stdout


processor = next((line.split(":")[1].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")), "a processor")
print(f"{os.cpu_count()} cores of {processor}, {proof['drives'][-1]['lanes']} lanes at most; load {os.getloadavg()[0]:.1f} (above 1: others are at work)\n")
ours = proof["methods"][0]
print("One flight, every carry within 1 mm\n")
print("| | tolerance | calls | worst carry, mm | time, us | times ours |\n|---|---|---|---|---|---|")
for m in proof["methods"] + (scipy_results() or []):
    print(f"| {m['name']} | {m['tolerance']:.1e} | {m['calls']:.1f} | {m['worst_mm']:.2f} | {m['ns'] / 1e3:.2f} | {m['ns'] / ours['ns']:.1f} |")
print(f"\nBare right-hand side, in a chain: {proof['call_ns']:.1f} ns; against its calls of it a flight takes")
for where, f in zip(("within 1 mm", "at the default tolerance"), proof["flights"]):
    print(f"- {where}: {f['calls']:.1f} calls, {f['ns'] / 1e3:.2f} us, {f['ns'] / (f['calls'] * proof['call_ns']):.2f} times")

print("\nWork and precision: calls a flight and worst carry error [mm], from coarse to fine\n")
print("| | " + " | ".join(f"{p[0]:.0e}" for p in ours["ladder"][4::4]) + " |\n|---|" + "---|" * len(ours["ladder"][4::4]))
for m in proof["methods"]:
    print(f"| {m['name']} | " + " | ".join(f"{p[1]:.0f}: {p[2]:.2g}" for p in m["ladder"][4::4]) + " |")

print("\nWhole drives (impact, flight, run) at the default tolerance\n")
print("| lanes | ns a drive | million a second and core | times one by one |\n|---|---|---|---|")
one = proof["drives"][0]["ns"]
for d in proof["drives"]:
    print(f"| {d['lanes']} | {d['ns']:.0f} | {1e3 / d['ns']:.2f} | {one / d['ns']:.1f} |")
c = proof["drive"]
print(f"\nArithmetic of a drive: {c['flops']} additions and multiplications, {c['divisions']:.0f} divisions, {c['roots']:.0f} square roots, "
      f"{c['functions']:.0f} elementary functions.")

print("\nWhole commands, least of five runs\n")
print("| command | wall, ms | processor, ms |\n|---|---|---|")
for args in (["--version"], ["demo", "--draws", "0"], ["demo"], ["demo", "--threads", "1"], ["chart"], ["chart", "--threads", "1"]):
    wall, spent, _ = command(*args)
    print(f"| {' '.join(args)} | {wall:.1f} | {spent:.1f} |")
print("\nGrowth: flights asked for\n")
print("| | flights |\n|---|---|")
for draws in (4096, 8192, 16384, 32768):
    print(f"| advise, {draws} draws | {json.loads(command('demo', '--json', '--draws', str(draws))[2])['flights']} |")
for step in (10, 5, 2.5):
    answer = json.loads(command("chart", "--json", "--speed-step", f"{step}mph")[2])
    print(f"| chart, {len(answer['cells'])} cells | {answer['flights']} |")
demo = subprocess.run(["/usr/bin/env", "python3", "-c", "import resource,subprocess,sys;subprocess.run(sys.argv[1:],stdout=subprocess.DEVNULL);"
                       "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)", build / "loftwright", "demo"], capture_output=True, text=True)
print(f"\nMost memory of demo: {int(demo.stdout) / 1024:.1f} MB")
