#include <jointrom/stats/repeatability.hpp>

#include "stats/distributions.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/error_of_measurement.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace jointrom {
namespace {

void require_two(std::size_t count, const char* code, const char* what) {
    if (count < 2) {
        throw Failure(FailureKind::unreadable_data, code,
                      std::to_string(count) + " " + what + "; at least two are needed",
                      "The model of several devices needs subjects, devices and repeats, two of each.");
    }
}

void require_enough(const ReplicatedTable& table) {
    require_two(table.subjects(), "too-few-subjects", "subject(s)");
    require_two(table.devices, "too-few-devices", "device(s)");
    require_two(table.repeats, "too-few-repeats", "repeat(s) with each device");
    if (std::ranges::any_of(table.values, [](double value) { return std::isnan(value); })) {
        throw Failure(FailureKind::unreadable_data, "missing-cell", "a reading is missing",
                      "Leave out subjects that lack a reading.");
    }
}

double square(double value) {
    return value * value;
}

/// Sums of squares and the means that they are taken about.
struct Squares {
    double subject = 0.0;
    double device = 0.0;
    double interaction = 0.0;
    std::vector<double> error;  ///< by device
    std::vector<double> device_means;
};

Squares squares_of(const ReplicatedTable& table) {
    const std::size_t n = table.subjects();
    const std::size_t t = table.devices;
    const std::size_t m = table.repeats;
    const double grand = describe(table.values).mean;
    std::vector<double> cell_means(n * t);
    std::vector<double> subject_means(n, 0.0);
    Squares squares{.error = std::vector<double>(t, 0.0), .device_means = std::vector<double>(t, 0.0)};
    for (std::size_t subject = 0; subject < n; ++subject) {
        for (std::size_t device = 0; device < t; ++device) {
            const auto cell = std::span(table.values).subspan((subject * t + device) * m, m);
            const Description about = describe(cell);
            cell_means[subject * t + device] = about.mean;
            subject_means[subject] += about.mean / static_cast<double>(t);
            squares.device_means[device] += about.mean / static_cast<double>(n);
            squares.error[device] += about.sd * about.sd * (static_cast<double>(m) - 1.0);
        }
    }
    for (std::size_t subject = 0; subject < n; ++subject) {
        squares.subject += static_cast<double>(t * m) * square(subject_means[subject] - grand);
        for (std::size_t device = 0; device < t; ++device) {
            squares.interaction +=
                static_cast<double>(m) * square(cell_means[subject * t + device] - subject_means[subject] -
                                                squares.device_means[device] + grand);
        }
    }
    for (const double mean : squares.device_means) {
        squares.device += static_cast<double>(n * m) * square(mean - grand);
    }
    return squares;
}

double ratio(double part, double rest) {
    return part / (part + rest);
}

void add_devices(Repeatability& result, const Squares& squares, double between, double confidence) {
    const double dof = static_cast<double>(result.subjects * (result.repeats - 1));
    for (std::size_t device = 0; device < result.devices; ++device) {
        const double variance = squares.error[device] / dof;
        const double sem = std::sqrt(variance);
        result.by_device.push_back({squares.device_means[device], sem, sd_interval(sem, dof, confidence),
                                    minimal_detectable_change(sem), ratio(between, variance)});
    }
}

}  // namespace

std::size_t ReplicatedTable::subjects() const {
    const std::size_t each = devices * repeats;
    return each == 0 ? 0 : values.size() / each;
}

Repeatability repeatability(const ReplicatedTable& table, double confidence) {
    require_enough(table);
    const Squares squares = squares_of(table);
    const auto n = static_cast<double>(table.subjects());
    const auto t = static_cast<double>(table.devices);
    const auto m = static_cast<double>(table.repeats);
    double error_squares = 0.0;
    for (const double part : squares.error) {
        error_squares += part;
    }
    Repeatability result{.subjects = table.subjects(), .devices = table.devices, .repeats = table.repeats};
    result.ms_subject = squares.subject / (n - 1.0);
    result.ms_device = squares.device / (t - 1.0);
    result.ms_interaction = squares.interaction / ((n - 1.0) * (t - 1.0));
    const double error_dof = n * t * (m - 1.0);
    const double error = result.ms_error = error_squares / error_dof;

    const double subject = (result.ms_subject - result.ms_interaction) / (m * t);
    const double device = (result.ms_device - result.ms_interaction) / (m * n);
    const double interaction = (result.ms_interaction - error) / m;
    const double between = subject + device + interaction;
    result.inter_random = ratio(subject, device + interaction + error);
    result.intra_random = ratio(between, error);
    const double subject_fixed = (result.ms_subject - error) / (m * t);
    const double between_fixed = subject_fixed + (t - 1.0) * interaction / t;
    result.inter_fixed = (subject_fixed - interaction / t) / (between_fixed + error);
    result.intra_fixed = ratio(between_fixed, error);
    result.sem_intra = std::sqrt(error);
    result.sem_intra_ci = sd_interval(result.sem_intra, error_dof, confidence);
    result.sem_inter_random = std::sqrt(std::max(0.0, device) + std::max(0.0, interaction) + error);
    result.sem_inter_fixed = std::sqrt(std::max(0.0, interaction) + error);
    add_devices(result, squares, between, confidence);
    return result;
}

}  // namespace jointrom
