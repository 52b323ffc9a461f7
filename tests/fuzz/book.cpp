// A pupil's book: read, written, shown.
#include "loftwright/book/history.hpp"
#include "loftwright/files/book_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "report/history_words.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::fuzz;

LOFTWRIGHT_FUZZ_TARGET(book)(const std::uint8_t* data, std::size_t size) {
  Findings findings;
  const auto book = read_book(text_of(data, size), findings);
  must(book.has_value() != has_errors(findings), "a book is read, or an error says why not");
  if (!book) return 0;
  const std::string text = book_text(*book);
  Findings none;
  const auto again = read_book(text, none);
  must(again && none.empty() && book_text(*again) == text, "a book written and read again is the same");
  book_csv(*book);
  for (const UnitSystem units : {UnitSystem::yards, UnitSystem::metres}) {
    history_json(*book, Catalogue(), units);
    history_table(*book, units);
    history_sentences(*book, units);
    sessions_table(book->sessions, units);
    history_page(*book, Catalogue(), units);
  }
  must(!book_title(*book).empty(), "a book has a title");
  return 0;
}
