#pragma once

/// \file
/// What the words of a heading say about the quantity below it.

#include <string_view>

namespace jointrom {

/// What a heading names, each more telling than the one before it.
enum class Naming {
    nothing,
    joint,          ///< only the name of a joint: "Elbow"
    motion,         ///< a direction of motion: "Flexion", "Pitch"
    muscle,         ///< a muscle or electromyogram: "Biceps", "RF"
    angle,          ///< an angle or the sensor for it: "Angle", "Goniometer"
    counter,        ///< "Sample", "Index"
    something_else  ///< "Velocity", "Force", "Battery"
};

[[nodiscard]] Naming naming_of(std::string_view heading);

}  // namespace jointrom
