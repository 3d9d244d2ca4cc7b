#include "study.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>

namespace jointrom::validation {

void Errors::add(double error, std::optional<double> u95) {
    ++count_;
    sum_ += error;
    squares_ += error * error;
    largest_ = std::max(largest_, std::abs(error));
    if (u95) {
        ++intervals_;
        held_ += std::abs(error) <= *u95 ? 1U : 0U;
        u95_sum_ += *u95;
    }
}

double Errors::bias() const {
    return count_ == 0 ? std::numeric_limits<double>::quiet_NaN() : sum_ / static_cast<double>(count_);
}

double Errors::sd() const {
    const auto n = static_cast<double>(count_);
    return count_ < 2 ? std::numeric_limits<double>::quiet_NaN()
                      : std::sqrt(std::max(0.0, (squares_ - sum_ * sum_ / n) / (n - 1.0)));
}

double Errors::coverage_pct() const {
    return 100.0 * static_cast<double>(held_) / static_cast<double>(intervals_);
}

double Errors::mean_u95() const {
    return u95_sum_ / static_cast<double>(intervals_);
}

Measured measure_simulated(const Simulation& simulation, const Settings& settings, const References& references) {
    SimulatedRecording truth = simulate(simulation, planned_recordings(simulation).front());
    std::istringstream text(recording_text(truth));
    Settings asked = settings;
    asked.joint = asked.joint.empty() ? simulation.joint : asked.joint;
    Trial trial = prepare_trial(read_recording("-", text, asked), asked, references);
    Measurements measurements = measure(trial.trace, asked, false);
    return {std::move(truth), std::move(trial), std::move(measurements)};
}

std::string number(double value, int decimals) {
    return std::isnan(value) ? "-" : fixed_text(value, decimals);
}

std::string markdown(const PageTable& table) {
    const auto line = [](const Row& row) {
        std::string text = "|";
        for (const std::string& cell : row) {
            text += " " + cell + " |";
        }
        return text + "\n";
    };
    std::string text = line(table.head) + "|";
    for (std::size_t i = 0; i < table.head.size(); ++i) {
        text += i == 0 ? "---|" : "---:|";
    }
    text += "\n";
    for (const Row& row : table.rows) {
        text += line(row);
    }
    return text;
}

}  // namespace jointrom::validation
