#pragma once

/// \file
/// What a muscle does at a joint, and what kind of contraction it makes when the direction of the load is known.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/movement/contraction.hpp>
#include <jointrom/movement/phases.hpp>

#include <optional>
#include <string_view>

namespace jointrom {

/// A direction of a joint motion.
enum class Toward { positive, negative };

[[nodiscard]] constexpr Toward opposite(Toward direction) noexcept {
    return direction == Toward::positive ? Toward::negative : Toward::positive;
}

/// The direction that `text` names: the motion's own names, "positive" or "negative", in any case; the beginning is
/// enough.
/// \param option for the message, e.g. "--resists"
/// \throws Failure usage "direction-unknown"
[[nodiscard]] Toward direction_named(std::string_view text, const JointMotion& motion, std::string_view option);

/// The direction in which a muscle moves the joint when it shortens, as its name says: its own, or what it is called
/// for, such as "elbow flexors".
///
/// \param muscle the channel's name, in any of several languages, or the usual abbreviation
/// \return nothing for a name that is not known at this joint
/// \par Reference the actions are those of any textbook of anatomy (from memory)
[[nodiscard]] std::optional<Toward> find_muscle_action(std::string_view muscle, const JointMotion& motion);

/// How the muscles that work against a load do it in a phase; undecided at rest.
/// \param resisted the direction of movement that the load resists, e.g. flexion when a mass is lifted by bending the
///                 elbow
[[nodiscard]] Contraction contraction_in(PhaseKind phase, Toward resisted);

}  // namespace jointrom
