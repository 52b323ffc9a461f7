/// @file
/// A book on disk: one JSON file a pupil, "format": "loftwright-book/1" (schema: data/schema/book.schema.json;
/// docs/book-file.md).
///
/// Beside FILE stands FILE.previous, the version before; while it is changed FILE.lock, which keeps two writers apart,
/// and for a moment a file of a name that nothing else has; and, where a file was found damaged when the next version
/// was written, what was left of it as FILE.damaged (or -2, -3, ...). A version is written beside, brought safely to
/// disk, and renamed into place, the one before it first. So whoever reads sees one whole version or the other,
/// whenever the writer is killed, and a full disk costs nothing that was there.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/book/book.hpp"
#include "loftwright/core/findings.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright {

/// Says everything that is wrong. Empty when there is an error.
std::optional<Book> read_book(std::string_view text, Findings& findings);

/// The text of the file, which read_book reads: what cannot be kept as it is throws InputError.
std::string book_text(const Book& book);

/// A table with a row a session and a row of heads above, RFC 4180. Each head names its unit: those of the book's own
/// file, or yards, miles an hour, feet and degrees F.
std::string book_csv(const Book& book, UnitSystem units = UnitSystem::metres);

/// A book as it was found or left on disk.
struct LoadedBook {
  Book book;                          ///< the record
  std::vector<std::string> warnings;  ///< sentences: what was found and done that nobody asked for
  bool restored = false;              ///< the file was damaged or missing and its previous version was taken
};

/// The file, or its previous version when the file is missing, empty or no JSON. A file that is JSON but no book of
/// this version is not passed over: FileError, and nothing was changed. InputError when there is no such book or it
/// cannot be read.
LoadedBook load_book(const std::filesystem::path& file);

/// Whether a book that is not there is begun or refused.
enum class WhenMissing { begin, refuse };
using BookChange = std::function<void(Book&)>;  ///< what is to be done to a book; what it throws is passed on

/// Reads the book as load_book does (or begins one), raises its version, lets `change` at it, and keeps the outcome.
/// Whatever is thrown, by `change` too, leaves the book as it was: InputError when another writer holds the lock, there
/// is no such folder, the file is read-only or a link that leads to nothing, or the outcome cannot be kept; Error when
/// the disk failed. After damage versions are counted on from the one that was lost.
LoadedBook change_book(const std::filesystem::path& file, WhenMissing when_missing, const BookChange& change);

/// The sessions of the previous version become the next version, so that undoing twice brings back what was undone. Of
/// a book that was damaged or missing there is nothing else to take back: its previous version becomes the book
/// (`restored`). Throws as change_book does, and InputError when there is nothing to undo.
LoadedBook undo_change(const std::filesystem::path& file);

}  // namespace loftwright
