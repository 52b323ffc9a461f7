/// @file
/// Pupil files, "format": "loftwright-pupil/1" (schema: data/schema/pupil.schema.json; docs/pupil-file.md).
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

#include "loftwright/core/findings.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

/// Reads what it can and says everything that is wrong: syntax with line and column, unknown keys with the nearest
/// known one, two units for one quantity, values outside their range, bounds crossed, empty lists, unknown models, ball
/// numbers the club speed does not allow. Empty when there is an error. `folder` is where files named inside are looked
/// for.
std::optional<Pupil> read_pupil(std::string_view text, const std::filesystem::path& folder, const Catalogue& catalogue,
                                Findings& findings);

/// The same from a file. Throws FileError; warnings are added to `warnings` when given.
Pupil load_pupil(const std::filesystem::path& file, const Catalogue& catalogue, Findings* warnings = nullptr);

/// The block that gives a pupil this tuning, "tuned": {...}, as text to paste into the file it belongs to. `text` is
/// that file's: the block names the ball and the head it holds for. Throws FileError when it is no pupil's.
std::string tuned_block(std::string_view text, const Tuning& tuning);

/// The file's text with that block in it. Nothing else is changed; a block that is there is replaced, and then the
/// whole text is laid out anew.
std::string with_tuned(std::string_view text, const Tuning& tuning);

/// A pupil file's text without the coach's private notes, for a page that is handed over. Without any, as it is.
std::string without_notes(std::string_view text);

/// Text of a file, at most `limit` bytes. Throws InputError when it cannot be read, is a folder, is empty or is larger.
std::string read_text(const std::filesystem::path& file, std::size_t limit = 8u << 20);

/// Throws InputError when write_text would refuse the name: a folder or device, a read-only file, a link to what is not
/// there.
void check_may_write(const std::filesystem::path& file);

/// Puts a text into a file whole or not at all: whatever ends the program on the way, the file's old text stands. A new
/// file may be read by whom `like` may be read. Throws as check_may_write does, and Error when the disk failed.
void write_text(const std::filesystem::path& file, std::string_view text, const std::filesystem::path& like);

}  // namespace loftwright
