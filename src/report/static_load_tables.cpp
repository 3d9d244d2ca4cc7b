#include "report/load_remarks.hpp"

#include <jointrom/report/load_tables.hpp>

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace jointrom {

ResultTable static_load_table(const StaticLoadView& view) {
    const bool has_direction = view.muscle && view.muscle->pull.is_set();
    std::vector<std::string_view> columns{"angle_deg", "muscle_group", "held_moment_nm", "limb_moment_nm",
                                          "load_moment_nm"};
    if (view.muscle) {
        columns.emplace_back("muscle_force_n");
    }
    if (has_direction) {
        columns.emplace_back("joint_force_n");
    }
    ResultTable table("held", columns);
    for (const StaticLoad& load : view.loads) {
        std::vector<Cell> cells{load.angle.value(), name_of(load.group, view.motion),
                                measured(load.moment_nm, load.moment_budget), load.limb_nm,
                                load.moment_nm - load.limb_nm};
        if (view.muscle) {
            cells.push_back(measured(load.muscle_n, load.muscle_budget));
        }
        if (has_direction) {
            cells.emplace_back(load.joint_n);
        }
        table.add_row(std::move(cells));
    }
    return table;
}

std::vector<std::string> static_load_remarks(const StaticLoadView& view) {
    std::vector<std::string> remarks = model_remarks(view.motion, view.model);
    if (view.muscle) {
        remarks.push_back(muscle_remark("", *view.muscle));
    }
    remarks.emplace_back(load_caution);
    return remarks;
}

std::vector<NamedBudget> static_load_budgets(const StaticLoadView& view) {
    std::vector<NamedBudget> budgets;
    for (const StaticLoad& load : view.loads) {
        const std::string place = fmt::format("at {:.4g} deg", load.angle.value());
        budgets.push_back({"the moment " + place, load.moment_budget, "N m"});
        if (!std::isnan(load.muscle_n)) {
            budgets.push_back({"the muscle force " + place, load.muscle_budget, "N"});
        }
    }
    return budgets;
}

}  // namespace jointrom
