#include "shots/csv.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"

namespace loftwright {

namespace {

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

void append_utf8(std::string& out, char32_t point) {
  const auto add = [&](char32_t byte) { out += static_cast<char>(byte); };
  if (point < 0x80) {
    add(point);
  } else if (point < 0x800) {
    add(0xC0 | (point >> 6)), add(0x80 | (point & 0x3F));
  } else if (point < 0x10000) {
    add(0xE0 | (point >> 12)), add(0x80 | (point >> 6 & 0x3F)), add(0x80 | (point & 0x3F));
  } else {
    add(0xF0 | (point >> 18)), add(0x80 | (point >> 12 & 0x3F)), add(0x80 | (point >> 6 & 0x3F)),
        add(0x80 | (point & 0x3F));
  }
}

// Of text after its byte order mark. Half a pair of surrogates (RFC 2781) becomes the character that stands for none.
std::string from_utf16(std::string_view bytes, bool high_byte_first) {
  const auto unit = [&](std::size_t at) -> char32_t {
    const char32_t a = static_cast<unsigned char>(bytes[at]), b = static_cast<unsigned char>(bytes[at + 1]);
    return high_byte_first ? a << 8 | b : b << 8 | a;
  };
  std::string out;
  for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
    const char32_t first = unit(at), second = at + 3 < bytes.size() ? unit(at + 2) : 0;
    const bool is_half = first >= 0xD800 && first < 0xE000;
    if (is_half && first < 0xDC00 && second >= 0xDC00 && second < 0xE000) {
      append_utf8(out, 0x10000 + ((first - 0xD800) << 10) + (second - 0xDC00));
      at += 2;
    } else {
      append_utf8(out, is_half ? 0xFFFD : first);
    }
  }
  if (bytes.size() % 2 == 1) append_utf8(out, 0xFFFD);  // cut within a character
  return out;
}

// How a spreadsheet's own files begin: an archive, or the compound file of older ones.
bool is_workbook(std::string_view bytes) {
  return bytes.starts_with("PK\x03\x04") || bytes.starts_with("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1");
}

}  // namespace

std::string csv_text(std::string_view bytes) {
  if (bytes.size() > kMostCsvBytes) {
    throw InputError(fmt::format("the shot list is {} bytes long; allowed: {}", bytes.size(), kMostCsvBytes));
  }
  if (is_workbook(bytes)) {
    throw InputError(
        "this is a workbook as a spreadsheet keeps it, not a text; open it in the spreadsheet, choose the sheet with "
        "the shots, save it as "
        "CSV (comma-separated values) under another name, and name that file");
  }
  const bool low_first = bytes.starts_with("\xFF\xFE"), high_first = bytes.starts_with("\xFE\xFF");
  const std::string decoded = low_first || high_first ? from_utf16(bytes.substr(2), high_first) : "";
  if (low_first || high_first) bytes = decoded;
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
