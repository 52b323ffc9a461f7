// Comma-separated values, read leniently where nothing can be lost and strictly where something could (why our own
// reader: docs/decisions/0001-csv.md). RFC 4180 with any delimiter; a record may end in LF, CRLF or CR.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

inline constexpr std::size_t kMostCsvBytes = 8u << 20;
inline constexpr std::size_t kMostCsvColumns = 512;

struct CsvRecord {
  std::size_t line = 0;            // where it begins, from 1
  std::vector<std::string> cells;  // unquoted, without spaces around them
};

// The text as UTF-8 without a byte order mark. UTF-16 is known by its mark; other text that is not UTF-8 is taken as
// Latin-1, the other encodings such files come in. Throws InputError when it is empty, longer than kMostCsvBytes, a
// spreadsheet's workbook or holds a NUL byte (the line is named).
std::string csv_text(std::string_view bytes);

// Skips blank lines, records of empty cells, and comments: lines that begin with # unless a digit or the delimiter
// follows (a column or a shot number may well be called #).
class CsvReader {
 public:
  // `text`, from csv_text, must outlive the reader.
  CsvReader(std::string_view text, char delimiter) : text_(text), delimiter_(delimiter) {}

  // The next record, or none at the end. Throws InputError naming the line: a quoted cell that is not closed (where it
  // opens), text after a closing quote, more than kMostCsvColumns cells.
  std::optional<CsvRecord> next();

  std::size_t comments() const { return comments_; }  // skipped so far

 private:
  bool at_end_of_line() const { return at_ == text_.size() || text_[at_] == '\n' || text_[at_] == '\r'; }
  bool at_blank() const { return text_[at_] != delimiter_ && (text_[at_] == ' ' || text_[at_] == '\t'); }
  bool at_comment() const;
  void end_line();
  std::string cell();
  std::string quoted_cell();

  std::string_view text_;
  char delimiter_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t comments_ = 0;
};

}  // namespace loftwright
