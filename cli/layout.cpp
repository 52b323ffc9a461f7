#include "layout.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "report/text_table.hpp"

namespace loftwright::cli {

std::string wrapped(std::string_view text, std::string_view first) {
  std::string out, line(first);
  const std::string indent(first.size(), ' ');
  bool empty = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(" \n\t"), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (!empty && line.size() + 1 + word.size() > kColumns) {
      out += line + "\n";
      line = indent;
      empty = true;
    }
    line += empty ? "" : " ";
    line += word;
    empty = false;
  }
  return out + line + "\n";
}

std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line = " ";
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += i == 0 ? fmt::format(" {:<{}}", row[i], widths[i]) : fmt::format("  {:>{}}", row[i], widths[i]);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

std::string section(std::string_view title, std::string_view body) {
  return body.empty() ? "" : fmt::format("{}\n{}", title, body);
}

std::string laid_out(const TextTable& data, std::string_view beneath, std::string_view indent) {
  std::string notes;
  for (const std::string& note : data.notes) notes += wrapped(note, indent);
  if (data.rows.empty()) return notes;
  const std::string out = table(data.rows) + std::string(beneath) + notes;
  return data.title.empty() ? out : section(data.title, out);
}

std::string printable(std::string_view text) {
  std::string out = without_direction_marks(text);
  unsigned char before = 0;
  for (char& c : out) {
    const auto byte = static_cast<unsigned char>(c);
    const bool second_half = before == 0xc2 && byte >= 0x80 && byte < 0xa0;  // U+0080 to U+009F in UTF-8
    if ((byte < 0x20 && c != '\n') || byte == 0x7f || second_half) c = ' ';
    before = byte;
  }
  return out;
}

}  // namespace loftwright::cli
