#pragma once

/// \file
/// The figures of a page of a class.

#include <jointrom/batch/page_of_class.hpp>
#include <jointrom/report/markup.hpp>

namespace jointrom {

/// The farthest angles of all participants by joint, side and condition beside their normal ranges, and their left
/// sides against their right ones; nothing where there are none. Angles in the positive direction of each joint.
[[nodiscard]] Markup class_pictures(const ClassPage& page);

}  // namespace jointrom
