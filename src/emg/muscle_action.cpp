#include <jointrom/emg/muscle_action.hpp>

#include "recording/words.hpp"

#include <jointrom/core/failure.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

namespace jointrom {
namespace {

/// A muscle at a joint: the direction is the beginning of one of the motion's names. The first row that fits counts.
struct Action {
    std::string_view joint;
    std::string_view direction;
    std::vector<std::string_view> words;
};

const std::vector<Action> actions{
    {"elbow", "extension", {"*tricep*", "*trizep*", "tb", "ancon*"}},
    {"elbow", "flexion", {"*bicep*", "*bizep*", "brachial*", "brachiorad*", "bb", "brd"}},
    {"forearm", "pronation", {"pronator*"}},
    {"forearm", "supination", {"supinator*", "*bicep*", "*bizep*"}},
    {"wrist", "flexion", {"fcr", "fcu", "fds"}},
    {"wrist", "extension", {"ecr", "ecu", "edc"}},
    {"wrist", "radial", {"fcr", "ecr"}},
    {"wrist", "ulnar", {"fcu", "ecu"}},
    {"knee", "extension", {"*quadric*", "*quadriz*", "quads", "vast*", "rect*", "rf", "vl", "vm", "vmo"}},
    {"knee", "flexion", {"*hamstring*", "hams", "*bicep*", "*bizep*", "*semitend*", "*semimem*", "bf", "st", "sm"}},
    {"ankle", "plantarflexion", {"*gastroc*", "*soleus*", "calf", "wade*", "gas", "gm", "gl", "sol"}},
    {"ankle", "dorsiflexion", {"tibialis*", "ta"}},
    {"hip", "extension", {"glut*", "*hamstring*", "hams", "*semitend*", "*semimem*", "bf", "st", "sm"}},
    {"hip", "flexion", {"*psoas", "rect*", "rf"}},
    {"hip", "abduction", {"glut*", "tensor*", "tfl"}},
    {"hip", "adduction", {"gracilis"}},
    {"shoulder", "abduction", {"*deltoid*", "supraspin*"}},
    {"shoulder", "adduction", {"latissimus", "pector*"}},
    {"shoulder", "flexion", {"pector*"}},
    {"shoulder", "extension", {"latissimus"}},
    {"trunk", "flexion", {"rect*", "abdom*"}},
    {"trunk", "extension", {"erector*", "multifid*"}},
    {"neck", "flexion", {"scm", "sternocleid*"}},
    {"neck", "extension", {"trapez*", "splenius"}},
};

/// What muscles are called for.
struct Calling {
    std::string_view direction;
    std::string_view words;
};
constexpr auto callings = std::to_array<Calling>({{"plantarflexion", "plantarflexor*"},
                                                  {"dorsiflexion", "dorsiflexor*"},
                                                  {"flexion", "flexor*"},
                                                  {"extension", "extensor*"},
                                                  {"abduction", "abductor*"},
                                                  {"adduction", "adductor*"},
                                                  {"pronation", "pronator*"},
                                                  {"supination", "supinator*"}});

std::optional<Toward> direction_starting(std::string_view direction, const JointMotion& motion) {
    if (motion.positive.starts_with(direction)) {
        return Toward::positive;
    }
    return motion.negative.starts_with(direction) ? std::optional(Toward::negative) : std::nullopt;
}

bool names_one_of(const std::vector<std::string>& words, const std::vector<std::string_view>& patterns) {
    return std::ranges::any_of(patterns, [&](std::string_view pattern) { return any_fits(words, {pattern}); });
}

std::string lower(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](char c) { return 'A' <= c && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c; });
    return result;
}

}  // namespace

Toward direction_named(std::string_view text, const JointMotion& motion, std::string_view option) {
    const std::string typed = lower(text);
    if (!typed.empty()) {
        for (const Toward direction : {Toward::positive, Toward::negative}) {
            const bool is_positive = direction == Toward::positive;
            if (lower(is_positive ? motion.positive : motion.negative).starts_with(typed) ||
                typed == (is_positive ? "positive" : "negative")) {
                return direction;
            }
        }
    }
    throw Failure(FailureKind::usage, "direction-unknown",
                  fmt::format("{}: '{}' is not a direction of this motion", option, text),
                  fmt::format("Directions are {} and {}{}.", motion.positive, motion.negative,
                              motion.is_known() ? "" : "; --joint gives them their names"));
}

std::optional<Toward> find_muscle_action(std::string_view muscle, const JointMotion& motion) {
    const auto words = words_of(muscle);
    for (const Action& action : actions) {
        if (action.joint == motion.joint && names_one_of(words, action.words)) {
            if (const auto direction = direction_starting(action.direction, motion)) {
                return direction;
            }
        }
    }
    for (const Calling& calling : callings) {
        if (any_fits(words, {calling.words})) {
            if (const auto direction = direction_starting(calling.direction, motion)) {
                return direction;
            }
        }
    }
    return std::nullopt;
}

Contraction contraction_in(PhaseKind phase, Toward resisted) {
    switch (phase) {
    case PhaseKind::rest:
        return Contraction::undecided;
    case PhaseKind::holding:
        return Contraction::isometric;
    case PhaseKind::raising:
        return resisted == Toward::positive ? Contraction::concentric : Contraction::eccentric;
    case PhaseKind::lowering:
        break;
    }
    return resisted == Toward::negative ? Contraction::concentric : Contraction::eccentric;
}

}  // namespace jointrom
