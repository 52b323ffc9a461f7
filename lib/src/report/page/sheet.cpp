#include "report/page/sheet.hpp"

#include <fmt/format.h>

#include "loftwright/version.hpp"
#include "report/page/html.hpp"
#include "report/page/templates.hpp"

namespace loftwright {

// Of the input and of the answer inside a page, each: what users write has no end, and a page stays small enough to
// mail.
constexpr std::size_t kMostMarkup = 100'000;  // [bytes]

std::string whole_page(const Sheet& sheet) {
  // The policy lets the page fetch nothing at all, whatever is written in it.
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "script-src 'unsafe-inline'; "
      "base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" "
      "content=\"light dark\">\n"
      "<meta name=\"generator\" content=\"loftwright "
      "{}\">\n<title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n",
      kVersion, escaped(fitting(sheet.title, 500)), page_file("colours.css"), page_file("page.css"));
  out += "<a class=\"skip\" href=\"#main\">To the answer</a>\n<main id=\"main\">\n" + sheet.body + "</main>\n";
  out += fmt::format(
      "<footer><p>Made by loftwright {}. The numbers are a model's; nothing on this page is sent "
      "anywhere.</p></footer>\n",
      kVersion);
  out += sheet.data;
  if (sheet.scripts)
    out += fmt::format("<script>\n{}</script>\n<script>\n{}</script>\n", page_file("grid.js"), page_file("page.js"));
  return out + "</body>\n</html>\n";
}

std::string part(std::string_view id, std::string_view heading, std::string_view content, std::string_view kind) {
  if (content.empty()) return "";
  return fmt::format(
      "<section id=\"{0}\" class=\"{3}\" aria-labelledby=\"{0}-head\">\n<h2 id=\"{0}-head\">{1}</h2>\n{2}</section>\n",
      id, escaped(heading), content, kind);
}

std::string under(std::string_view heading, std::string_view content) {
  return content.empty() ? "" : fmt::format("<h3>{}</h3>\n{}", escaped(heading), content);
}

std::string big_number(std::string_view words, std::string_view value, std::string_view unit,
                       std::string_view beneath) {
  return fmt::format("<div class=\"big\"><dt>{}</dt><dd><b>{}</b> {}{}</dd></div>\n", words, escaped(value),
                     escaped(unit), beneath.empty() ? "" : fmt::format("<span>{}</span>", escaped(beneath)));
}

std::string big_numbers_of(std::string_view numbers) { return fmt::format("<dl class=\"bigs\">\n{}</dl>\n", numbers); }

std::string input_again(std::string_view input, std::string_view file, std::string_view command) {
  const std::string shown = escaped(input);
  if (shown.size() > kMostMarkup) {
    return paragraph(
        fmt::format("The input of this page is too long to stand here: keep it beside the page, say as {}.", file),
        "note");
  }
  return fmt::format(
      "<details class=\"again\"><summary>The input of this page, to make it again</summary>\n<p>Keep this as a file, "
      "say {}, with "
      "the files it names beside it; then: <code>{}</code></p>\n<pre tabindex=\"0\"><code "
      "id=\"input\">{}</code></pre></details>\n",
      file, command, shown);
}

std::string answer_element(const std::string& json) {
  const std::string element = data_element("answer", json);
  return element.size() > kMostMarkup ? "" : element;
}

std::string data_element(std::string_view id, const std::string& json) {
  return fmt::format("<script type=\"application/json\" id=\"{}\">{}</script>\n", id, in_script(json));
}

}  // namespace loftwright
