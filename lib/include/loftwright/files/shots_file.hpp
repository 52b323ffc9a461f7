/// @file
/// Shot lists as files, and what their reading has to say.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/shots/shot_list.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

/// read_shots for a text that has a name. Throws InputError that begins with the name, also when no row is a shot.
ShotList shots_from(std::string_view text, const std::string& name, const ColumnMap& words,
                    const ReadOptions& options = {});

/// The same from a file.
ShotList load_shots(const std::filesystem::path& file, const ColumnMap& words, const ReadOptions& options = {});

/// What was set aside, and why, and what was noted: a sentence each, with the name of the list and the line.
std::vector<std::string> remarks(const ShotList& list, const std::string& name);

/// What a delivery block takes for granted: a sentence each, none when all of it was measured.
std::vector<std::string> remarks(const DeliveryBlock& block);

}  // namespace loftwright
