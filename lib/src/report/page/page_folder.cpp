#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/disk.hpp"
#include "loftwright/core/error.hpp"
#include "loftwright/report/pages.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

std::string in_small_letters(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

// It says so at its head (sheet.cpp).
bool is_page_of_ours(const fs::path& file) {
  constexpr std::size_t kHead = 2000;
  return read_file(file, kHead).find("<meta name=\"generator\" content=\"loftwright ") != std::string::npos;
}

}  // namespace

std::vector<std::string> clinic_page_names(const std::vector<std::string>& files) {
  std::set<std::string> taken{std::string(kClinicSummary)};
  std::vector<std::string> out;
  for (const std::string& file : files) {
    const std::string stem = fs::path(file).stem().string();
    std::string name = stem + ".html";
    for (int n = 2; !taken.insert(in_small_letters(name)).second; ++n) name = fmt::format("{}-{}.html", stem, n);
    out.push_back(name);
  }
  return out;
}

void prepare_page_folder(const fs::path& folder, const std::vector<std::string>& names) {
  make_folder(folder);
  for (const std::string& name : names) {
    const fs::path file = folder / name;
    check_page_name(file);
    if (seems_there(file) && !is_page_of_ours(file)) {
      throw InputError(
          fmt::format("{} is there and is no page of ours; move it, or choose another folder", file.string()));
    }
  }
}

}  // namespace loftwright
