#include "loftwright/shots/csv.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace loftwright {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Length of the UTF-8 character at `at`, 0 when it is not one (RFC 3629: no overlong forms, surrogates or beyond
// 10FFFF).
std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0u; };
  const auto follows = [&](std::size_t i) { return byte(i) >= 0x80 && byte(i) <= 0xBF; };
  const unsigned lead = byte(0), second = byte(1);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return follows(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    if ((lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F)) return 0;
    return follows(1) && follows(2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    if ((lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F)) return 0;
    return follows(1) && follows(2) && follows(3) ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0) return false;
    at += length;
  }
  return true;
}

std::string from_latin1(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      out += c;
    } else {
      out += static_cast<char>(0xC0 | (byte >> 6));
      out += static_cast<char>(0x80 | (byte & 0x3F));
    }
  }
  return out;
}

}  // namespace

std::string csv_text(std::string_view bytes) {
  if (bytes.size() > kMostCsvBytes) {
    throw InputError(fmt::format("the shot list is {} bytes long; allowed: {}", bytes.size(), kMostCsvBytes));
  }
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) {
    throw InputError("the shot list is in UTF-16; save it as UTF-8");
  }
  if (const auto nul = bytes.find('\0'); nul != std::string_view::npos) {
    throw InputError(
        fmt::format("line {}: a NUL byte; a shot list is plain text",
                    1 + std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(nul), '\n')));
  }
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) throw InputError("the shot list is empty");
  return is_utf8(bytes) ? std::string(bytes) : from_latin1(bytes);
}

bool CsvReader::at_comment() const {
  if (text_[at_] != '#') return false;
  if (at_ + 1 == text_.size()) return true;
  return text_[at_ + 1] != delimiter_ && !is_digit(text_[at_ + 1]);
}

void CsvReader::end_line() {
  if (at_ == text_.size()) return;
  at_ += text_.substr(at_).starts_with("\r\n") ? 2 : 1;
  ++line_;
}

std::string CsvReader::quoted_cell() {
  const std::size_t opened = line_;
  std::string out;
  for (++at_; at_ < text_.size(); ++at_) {
    const char c = text_[at_];
    if (c == '"') {
      if (!text_.substr(at_).starts_with("\"\"")) break;
      ++at_;
    } else if (c == '\n' || (c == '\r' && !text_.substr(at_).starts_with("\r\n"))) {
      ++line_;
    }
    out += c;
  }
  if (at_ == text_.size())
    throw InputError(fmt::format("line {}: a quoted cell begins here and is not closed", opened));
  ++at_;
  while (at_ < text_.size() && at_blank()) ++at_;
  if (!at_end_of_line() && text_[at_] != delimiter_) {
    throw InputError(
        fmt::format("line {}: text after a closing quote (a quote inside a quoted cell is written twice)", line_));
  }
  return out;
}

std::string CsvReader::cell() {
  while (at_ < text_.size() && at_blank()) ++at_;
  if (at_ < text_.size() && text_[at_] == '"') return quoted_cell();
  const std::size_t begin = at_;
  while (!at_end_of_line() && text_[at_] != delimiter_) ++at_;
  std::string_view out = text_.substr(begin, at_ - begin);
  while (!out.empty() && (out.back() == ' ' || out.back() == '\t')) out.remove_suffix(1);
  return std::string(out);
}

std::optional<CsvRecord> CsvReader::next() {
  while (at_ < text_.size()) {
    if (at_comment()) {
      ++comments_;
      while (!at_end_of_line()) ++at_;
      end_line();
      continue;
    }
    CsvRecord record{line_, {}};
    record.cells.push_back(cell());
    while (!at_end_of_line()) {
      if (record.cells.size() == kMostCsvColumns) {
        throw InputError(fmt::format("line {}: more than {} cells", record.line, kMostCsvColumns));
      }
      ++at_;  // the delimiter
      record.cells.push_back(cell());
    }
    end_line();
    const auto is_empty = [](const std::string& cell) { return cell.empty(); };
    if (!std::all_of(record.cells.begin(), record.cells.end(), is_empty)) return record;
  }
  return std::nullopt;
}

}  // namespace loftwright
