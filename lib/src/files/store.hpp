// Changes to a book on disk with the writing in the caller's hands; loftwright/book/book_file.hpp says what they do.
#pragma once

#include "core/disk.hpp"
#include "loftwright/files/book_file.hpp"

namespace loftwright {

LoadedBook change_book(const std::filesystem::path& file, WhenMissing when_missing, const BookChange& change,
                       const Writing& writing);
LoadedBook undo_change(const std::filesystem::path& file, const Writing& writing);

}  // namespace loftwright
