# Warnings for our own code only: private to each target, never exported.
add_library(loftwright_warnings INTERFACE)
target_compile_options(loftwright_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor
                       -Woverloaded-virtual -Wcast-align $<$<BOOL:${LOFTWRIGHT_WERROR}>:-Werror>
                       # GCC 12 sees overlaps in "literal" + std::string that are not there (GCC bug 105329).
                       $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>
                       # One text for numbers and lanes: & computes both sides on purpose.
                       $<$<CXX_COMPILER_ID:Clang,AppleClang>:-Wno-bitwise-instead-of-logical>)
