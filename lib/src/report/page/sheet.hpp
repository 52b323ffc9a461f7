// What every page has: head, style, scripts, foot.
#pragma once

#include <string>
#include <string_view>

namespace loftwright {

struct Sheet {
  std::string title;  // text, not yet escaped
  std::string body;   // markup of the main part, headings and all
  std::string data;   // script elements of JSON
  bool scripts = false;
};
std::string whole_page(const Sheet& sheet);

// A part of the page under a heading of its own. Nothing around nothing.
std::string part(std::string_view id, std::string_view heading, std::string_view content, std::string_view kind = "");

// A smaller heading and what it heads. Nothing above nothing.
std::string under(std::string_view heading, std::string_view content);

// A number to be read from across the room: `words` is markup, the rest text.
std::string big_number(std::string_view words, std::string_view value, std::string_view unit, std::string_view beneath);
std::string big_numbers_of(std::string_view numbers);

// The input that a page was made from, and the command that makes it again. Of an input too long for a page only that.
std::string input_again(std::string_view input, std::string_view file, std::string_view command);

// JSON for scripts and for programs that read the page.
std::string data_element(std::string_view id, const std::string& json);

// The command's answer as such; nothing when it is too long for a page.
std::string answer_element(const std::string& json);

}  // namespace loftwright
