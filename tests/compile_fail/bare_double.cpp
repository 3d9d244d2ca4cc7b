// Must not compile: a bare number where an angle is expected.
#include <jointrom/core/units.hpp>

jointrom::Degrees twice(jointrom::Degrees angle) {
    return 2.0 * angle;
}
jointrom::Degrees result = twice(12.5);
