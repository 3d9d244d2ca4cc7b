// The control: like the files beside it, but correct, so it must compile.
#include <jointrom/core/units.hpp>

jointrom::Degrees twice(jointrom::Degrees angle) {
    return 2.0 * angle;
}
jointrom::Degrees result = twice(jointrom::Degrees(12.5));
