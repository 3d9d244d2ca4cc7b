#include <jointrom/report/simulation_tables.hpp>

#include <string>

namespace jointrom {

ResultTable truth_table() {
    return {"truth",
            {"file", "participant", "joint", "side", "trial", "repetitions", "positive_direction", "positive_deg",
             "negative_direction", "negative_deg", "arc_deg"}};
}

void add_truth(ResultTable& table, const SimulatedRecording& recording) {
    const PlannedRecording& plan = recording.plan;
    const double high_deg = recording.movement.highest_deg();
    const double low_deg = recording.movement.lowest_deg();
    table.add_row({plan.file, plan.participant, plan.motion->joint, std::string(name_of(plan.side)),
                   count_cell(plan.trial), count_cell(recording.movement.repetitions().size()), plan.motion->positive,
                   high_deg, plan.motion->negative, low_deg, high_deg - low_deg});
}

}  // namespace jointrom
