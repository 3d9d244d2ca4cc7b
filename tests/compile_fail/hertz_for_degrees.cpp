// Must not compile: a frequency where an angle is expected.
#include <jointrom/core/units.hpp>

jointrom::Degrees twice(jointrom::Degrees angle) {
    return 2.0 * angle;
}
jointrom::Degrees result = twice(jointrom::Hertz(12.5));
