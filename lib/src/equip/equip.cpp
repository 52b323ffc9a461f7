#include "loftwright/equip/ball.hpp"
#include "loftwright/equip/head.hpp"

namespace loftwright {

void validate(const Ball& ball) { check_numbers(kBallNumbers, ball); }

void validate(const Head& head) { check_numbers(kHeadNumbers, head); }

}  // namespace loftwright
