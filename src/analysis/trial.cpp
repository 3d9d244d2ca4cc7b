#include <jointrom/analysis/trial.hpp>
#include <jointrom/angle/calibration_file.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/recording/joint_inference.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

/// The joint and side that the settings name, else those that the recording's own texts name.
void settle_joint(const Settings& settings, const Recording& recording, PreparationOptions& options,
                  Findings& findings) {
    const Inferred inferred = infer_joint_and_side(recording);
    if (!settings.joint.empty()) {
        options.motion = joint_motion(settings.joint, settings.motion);
    } else if (!inferred.joint.empty()) {
        options.motion = joint_motion(inferred.joint, settings.motion);
        findings.emplace_back("joint-inferred", fmt::format("{} from {}", options.motion.joint, inferred.joint_where));
    } else if (!settings.motion.empty()) {
        throw Failure(FailureKind::usage, "joint-missing", "--motion needs a joint", "Add --joint.");
    }
    if (options.side == Side::unknown && !inferred.side.empty()) {
        options.side = side_named(inferred.side);
        findings.emplace_back("side-inferred", fmt::format("{} from {}", inferred.side, inferred.side_where));
    }
}

/// Whether `angles` wrote this table: its angles are anatomical and filtered already.
bool holds_prepared_angles(const Recording& recording) {
    const auto has = [&](std::string_view heading) {
        return std::ranges::find(recording.table.headings, heading) != recording.table.headings.end();
    };
    return has("angle_deg") && has("angle_u_deg") && has("velocity_deg_s");
}

/// Nothing that was done to the angle is done to it again.
void keep_as_prepared(PreparationOptions& options, Findings& findings) {
    options.neutral = {.rule = NeutralChoice::Rule::value, .value = Degrees(0.0), .source = "already put to neutral"};
    options.mirror = false;
    options.lowpass.rule = LowpassChoice::Rule::off;
    findings.emplace_back("already-prepared", "the file holds joint angles that jointrom wrote");
}

void settle_neutral(const Settings& settings, const References& references, PreparationOptions& options,
                    Findings& findings) {
    if (!references.neutral) {
        return;
    }
    if (options.neutral.rule == NeutralChoice::Rule::value) {
        throw Failure(FailureKind::usage, "neutral-twice", "--neutral-deg and --neutral-file both put zero somewhere",
                      "Give one of them.");
    }
    options.neutral =
        neutral_of_recording(angle_channel(*references.neutral), options, settings.neutral_file, findings);
}

}  // namespace

Recording read_recording(const std::string& file, std::istream& standard_input, const Settings& settings) {
    if (file != "-") {
        return read_recording(file, settings.reading);
    }
    const auto source = stream_source(standard_input);
    return read_recording(*source, "standard input", settings.reading);
}

References read_references(const Settings& settings, std::istream& standard_input) {
    References references;
    if (!settings.calibration_file.empty()) {
        references.calibration = read_calibration(settings.calibration_file);
    }
    if (!settings.neutral_file.empty()) {
        references.neutral = read_recording(settings.neutral_file, standard_input, settings);
    }
    return references;
}

Trial prepare_trial(Recording recording, const Settings& settings, const References& references) {
    Findings findings = recording.findings;
    PreparationOptions options = settings.preparation;
    settle_joint(settings, recording, options, findings);
    options.calibration = references.calibration;
    if (holds_prepared_angles(recording)) {
        keep_as_prepared(options, findings);
    } else {
        settle_neutral(settings, references, options, findings);
    }
    AngleTrace trace = prepare_angle(angle_channel(recording), options, findings);
    return {std::move(recording), std::move(trace), std::move(findings)};
}

Trial prepare_trial(const std::string& file, std::istream& standard_input, const Settings& settings) {
    Recording recording = read_recording(file, standard_input, settings);
    return prepare_trial(std::move(recording), settings, read_references(settings, standard_input));
}

}  // namespace jointrom
