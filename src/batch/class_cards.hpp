#pragma once

/// \file
/// What a page of a class says of each participant.

#include "batch/class_form.hpp"

#include <jointrom/batch/page_of_class.hpp>
#include <jointrom/report/markup.hpp>

#include <span>

namespace jointrom {

/// Cards: result, comparison, repetitions, muscles and findings of each participant.
[[nodiscard]] Markup class_cards(const ClassPage& page, const ClassForm& form, std::span<const ClassMember> members);

}  // namespace jointrom
