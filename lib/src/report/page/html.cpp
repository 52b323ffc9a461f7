#include "report/page/html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "core/text.hpp"
#include "report/page/templates.hpp"
#include "report/text_table.hpp"

namespace loftwright {

std::string_view page_file(std::string_view name) {
  const auto* end = kPageFiles + kPageFilesCount;
  const auto* at = std::find_if(kPageFiles, end, [&](const EmbeddedFile& f) { return f.name == name; });
  if (at == end) throw std::logic_error(fmt::format("the page has no file '{}'", name));
  return at->text;
}

namespace {

// "": the character stands for itself.
std::string_view instead_of(char c) {
  switch (c) {
    case '&': return "&amp;";
    case '<': return "&lt;";
    case '>': return "&gt;";
    case '"': return "&quot;";
    case '\'': return "&#39;";
    default: return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7f ? " " : "";
  }
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : without_direction_marks(text)) {
    const std::string_view instead = instead_of(c);
    instead.empty() ? out += c : out += instead;
  }
  return out;
}

std::string_view fitting(std::string_view text, std::size_t most) {
  std::size_t end = 0;
  for (std::size_t used = 0; end < text.size();) {
    std::size_t next = end;
    do used += std::max<std::size_t>(instead_of(text[next++]).size(), 1);
    while (next < text.size() &&
           (static_cast<unsigned char>(text[next]) & 0xc0) == 0x80);  // within a character of UTF-8
    if (used > most) break;
    end = next;
  }
  return text.substr(0, end);
}

std::string typed(std::string_view text) {
  const std::string_view shown = fitting(text, kLongestTyped);
  return fmt::format("<bdi>{}{}</bdi>", escaped(shown), shown.size() < text.size() ? " …" : "");
}

std::string in_script(std::string_view json) {
  std::string out;
  for (const char c : json) {
    if (c == '<') {
      out += "\\u003c";  // only strings hold one, and there it means the same
    } else {
      out += c;
    }
  }
  return out;
}

std::string paragraph(std::string_view text, std::string_view kind) {
  if (text.empty()) return "";
  return kind.empty() ? fmt::format("<p>{}</p>\n", escaped(text))
                      : fmt::format("<p class=\"{}\">{}</p>\n", kind, escaped(text));
}

std::string bullets(const std::vector<std::string>& items) {
  if (items.empty()) return "";
  std::string out = "<ul>\n";
  for (const std::string& item : items) out += fmt::format("<li>{}</li>\n", typed(item));
  return out + "</ul>\n";
}

namespace {

// `named`: what each cell is, for a row that stands without its heads.
std::string row_of(const std::vector<std::string>& cells, bool head, std::string_view link = "",
                   const std::vector<std::string>& named = {}) {
  std::string out = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (head && cells[i].empty()) {
      out += "<td></td>";
    } else if (i == 0 && !link.empty()) {
      out += fmt::format("<th scope=\"row\"><a href=\"{}\">{}</a></th>", link, typed(cells[i]));
    } else if (head || i == 0) {
      out += fmt::format("<th scope=\"{}\">{}</th>", head ? "col" : "row", escaped(cells[i]));
    } else {
      const std::string name = i < named.size() ? fmt::format(" data-head=\"{}\"", escaped(named[i])) : "";
      out += fmt::format("<td{}>{}</td>", name, escaped(cells[i]));
    }
  }
  return out + "</tr>\n";
}

}  // namespace

std::string as_address(std::string_view name) {
  std::string out;
  for (const char c : name) {
    const bool plain = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' ||
                       c == '.' || c == '_' || c == '~';  // RFC 3986, 2.3
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

std::string html_table(const TextTable& table, const std::vector<std::string>& links) {
  if (table.rows.empty()) return "";
  std::string out = fmt::format(
      "<div class=\"wide\" tabindex=\"0\" role=\"region\" "
      "aria-label=\"{0}\"><table{1}>\n<caption>{0}</caption>\n<thead>\n",
      escaped(table.title), table.stacks ? " class=\"stacks\"" : "");
  // A row of units under a row of heads is one head each: a reader of rows hears "carry yd".
  std::vector<std::string> heads = table.rows.front();
  for (std::size_t r = 1; r < table.heads; ++r) {
    for (std::size_t i = 0; i < heads.size(); ++i) {
      if (!table.rows[r][i].empty()) heads[i] += (heads[i].empty() ? "" : " ") + table.rows[r][i];
    }
  }
  out += row_of(heads, true) + "</thead>\n<tbody>\n";
  for (std::size_t r = table.heads; r < table.rows.size(); ++r) {
    out += row_of(table.rows[r], false, r - table.heads < links.size() ? std::string_view(links[r - table.heads]) : "",
                  table.stacks ? heads : std::vector<std::string>{});
  }
  out += "</tbody>\n</table></div>\n";
  for (const std::string& note : table.notes) out += paragraph(note, "note");
  return out;
}

}  // namespace loftwright
