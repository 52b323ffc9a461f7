// What every page has: head, style, scripts, foot.
#pragma once

#include <string>
#include <string_view>

namespace loftwright {

struct Sheet {
  std::string title;   // text, not yet escaped
  std::string body;    // markup of the main part, headings and all
  std::string data;    // script elements of JSON
  bool scripts = false;
};
std::string whole_page(const Sheet& sheet);

// A part of the page under a heading of its own. Nothing around nothing.
std::string part(std::string_view id, std::string_view heading, std::string_view content, std::string_view kind = "");

// A smaller heading and what it heads. Nothing above nothing.
std::string under(std::string_view heading, std::string_view content);

// JSON for scripts and for programs that read the page.
std::string data_element(std::string_view id, const std::string& json);

}  // namespace loftwright
