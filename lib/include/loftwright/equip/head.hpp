// The driver head as a rigid body with a bulged and rolled face, and how it gives back what it is given.
#pragma once

namespace loftwright {

// T carries derivatives or lanes through the parts of the head that are uncertain.
template <class T>
struct HeadOf {
  double mass = 0.205;                // [kg] head with the tip of the shaft
  double inertia_normal = 2.8e-4;     // [kg m^2] about the face normal
  double inertia_up = 4.8e-4;         // [kg m^2] about the up-face axis (heel and toe strikes turn the head about it)
  double inertia_heel_toe = 2.6e-4;   // [kg m^2] about the heel-toe axis (high and low strikes)
  double depth = 0.036;               // [m] centre of gravity behind the face, on the face-centre normal
  double bulge = 0.305;               // [m] radius of the face from heel to toe
  double roll = 0.305;                // [m] radius of the face from sole to crown
  T restitution = T(0.83);            // [-] at restitution_speed
  double restitution_speed = 48.77;   // [m/s] 160 ft/s, the rules' test speed
  double restitution_slope = 0.002;   // [s/m] loss of restitution per m/s above it (estimate)
  T tangential_restitution = T(-0.20);  // [-] u't = -e_t ut for a gripping ball (Cross 2002; estimate)
  double friction = 0.40;             // [-] face on ball (estimate)
};
using Head = HeadOf<double>;

// The same head for a calculation in T.
template <class T>
HeadOf<T> head_in(const Head& h) {
  return {h.mass, h.inertia_normal, h.inertia_up, h.inertia_heel_toe, h.depth, h.bulge, h.roll, T(h.restitution),
          h.restitution_speed, h.restitution_slope, T(h.tangential_restitution), h.friction};
}

// Throws InputError naming the field and its range.
void validate(const Head& head);

}  // namespace loftwright
