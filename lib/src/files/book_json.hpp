// A book and its JSON.
#pragma once

#include <optional>
#include <string_view>

#include "files/json_text.hpp"
#include "files/json_values.hpp"
#include "loftwright/book/book.hpp"

namespace loftwright {

inline constexpr std::string_view kBookFormat = "loftwright-book/1";

std::optional<Book> book_from(const Json& document, Findings& findings);

OrderedJson session_json(const BookedSession& session);

class ObjectReader;
// What advice promised, as a session keeps it.
OrderedJson promise_json(const Promise& promise);
Promise read_promise(ObjectReader& reader);

}  // namespace loftwright
