#include "loftwright/files/pupil_folder.hpp"

#include <fmt/format.h>

#include "core/disk.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/files/check_file.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

bool may_be_pupil(const std::string& name) {
  const std::string extension = fs::path(name).extension().string();
  return !name.starts_with('.') && (extension == ".json" || extension == ".JSON");
}

// Empty: none, or the file cannot be read, which its reader will say.
std::string format_of_file(const fs::path& file) {
  try {
    return format_named(read_text(file));
  } catch (const InputError&) {
    return "";
  }
}

bool is_pupils(std::string_view format) {
  return format.empty() || format.substr(0, format.find('/')) == kPupilFormat.substr(0, kPupilFormat.find('/'));
}

}  // namespace

PupilFolder pupil_folder(const fs::path& folder) {
  if (!is_there(folder)) throw InputError(fmt::format("{}: there is no such folder", folder.string()));
  if (kind_of(folder) != FileKind::folder)
    throw InputError(fmt::format("{} is no folder; a folder of pupils' files is expected", folder.string()));
  PupilFolder out{folder, {}, {}};
  for (const std::string& name : list_folder(folder)) {
    if (!may_be_pupil(name)) continue;
    const std::string format = format_of_file(folder / name);
    is_pupils(format) ? out.files.push_back(name) : out.left_out.push_back({name, format});
  }
  if (out.files.empty()) {
    throw InputError(fmt::format("{}: there is no pupil's file (*.json) in this folder{}", folder.string(),
                                 out.left_out.empty() ? "" : "; what is there is something else"));
  }
  check_range(fmt::format("{}: pupils", folder.string()), static_cast<double>(out.files.size()), 1.0,
              static_cast<double>(kMostPupils), "");
  return out;
}

Entrant entrant_of(const PupilFolder& folder, std::size_t i, const Catalogue& catalogue, const NamedAcademy* academy) {
  const fs::path file = folder.folder / folder.files[i];
  std::string text = read_text(file);
  Findings findings;
  const auto pupil = read_pupil(text, folder.folder, catalogue, findings);
  if (!pupil) throw FileError(file.string(), findings);
  Setting setting = setting_for(*pupil, catalogue);
  Entrant out{*pupil, std::move(setting), static_cast<int>(findings.size()), std::move(text)};
  if (academy) {
    out.taken = take_academy(*academy, out.pupil, out.widths.emplace());
    out.reached = reached_share_of(academy->academy);
  }
  return out;
}

}  // namespace loftwright
