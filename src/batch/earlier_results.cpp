#include <jointrom/batch/earlier_results.hpp>
#include <jointrom/batch/hashed_file.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/version.hpp>

namespace jointrom {
namespace {

bool holds_same_bytes(const TrialTask& task, const TrialRow& row) {
    try {
        return HashedRecording(task.path).sha256() == row.input_sha256;
    } catch (const Failure&) {
        return false;  // told when it is measured
    }
}

}  // namespace

std::optional<TrialOutcome> EarlierResults::find(const TrialTask& task) const {
    const std::string& id = task.subject.id;
    if (!tables_.holds(id) || tables_.version(id) != version()) {
        return std::nullopt;
    }
    const TrialRow row = tables_.row(id);
    if (!row.done || row.settings_sha256 != task.references->settings_sha256 || !holds_same_bytes(task, row)) {
        return std::nullopt;
    }
    TrialOutcome outcome = tables_.outcome(id);
    TrialSubject& subject = outcome.row.subject;
    TrialSubject planned = task.subject;
    planned.side = subject.side;
    planned.joint = subject.joint;
    planned.motion = subject.motion;
    subject = std::move(planned);
    const bool is_whole =
        outcome.repetitions.size() == outcome.row.repetitions && outcome.findings.size() == outcome.row.findings;
    return is_whole ? std::optional(std::move(outcome)) : std::nullopt;
}

}  // namespace jointrom
