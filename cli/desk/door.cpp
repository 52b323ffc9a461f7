#include "door.hpp"

#include <cstdint>
#include <sstream>
#include <stdexcept>

#include "app.hpp"

namespace loftwright::desk {

namespace {

class Bytes {
 public:
  explicit Bytes(std::string_view left) : left_(left) {}

  bool at_end() const { return left_.empty(); }
  std::uint32_t number() {
    std::uint32_t n = 0;
    const std::string_view four = take(4);
    for (std::size_t i = 4; i-- > 0;) n = n << 8 | static_cast<unsigned char>(four[i]);
    return n;
  }
  std::string text() { return std::string(take(number())); }

 private:
  std::string_view take(std::size_t count) {
    if (count > left_.size()) throw std::out_of_range("a call ends too soon");
    const std::string_view taken = left_.substr(0, count);
    left_.remove_prefix(count);
    return taken;
  }

  std::string_view left_;
};

void put_number(std::string& to, std::uint32_t n) {
  for (int i = 0; i < 4; ++i) to += static_cast<char>(n >> (8 * i) & 0xff);
}

void put_text(std::string& to, std::string_view text) {
  put_number(to, static_cast<std::uint32_t>(text.size()));
  to += text;
}

}  // namespace

Answer answer(const Call& call) {
  put_files(call.files);
  std::istringstream in(call.input);
  std::ostringstream out, err;
  const int code = cli::run(call.args, in, out, err);
  return {code, out.str(), err.str(), written_files()};
}

Call call_from(std::string_view bytes) {
  Bytes left(bytes);
  Call call;
  for (std::uint32_t count = left.number(); count > 0; --count) call.args.push_back(left.text());
  call.input = left.text();
  while (!left.at_end()) {
    std::string name = left.text();
    call.files[std::move(name)] = left.text();
  }
  return call;
}

std::string bytes_of(const Answer& answer) {
  std::string out;
  put_number(out, static_cast<std::uint32_t>(answer.code));
  put_text(out, answer.out);
  put_text(out, answer.err);
  for (const auto& [name, text] : answer.files) {
    put_text(out, name);
    put_text(out, text);
  }
  return out;
}

}  // namespace loftwright::desk
