#pragma once

/// \file
/// Several devices (or raters), each of which measured every subject several times: how well a device agrees with
/// itself, and with the others.

#include <jointrom/stats/confidence_interval.hpp>

#include <cstddef>
#include <vector>

namespace jointrom {

/// The same number of repeats for every subject with every device: values by subject, then device, then repeat.
struct ReplicatedTable {
    std::size_t devices = 0;
    std::size_t repeats = 0;
    std::vector<double> values;

    [[nodiscard]] std::size_t subjects() const;
    [[nodiscard]] double at(std::size_t subject, std::size_t device, std::size_t repeat) const {
        return values[(subject * devices + device) * repeats + repeat];
    }
};

struct DeviceRepeatability {
    double mean;
    double sem;  ///< standard error of measurement of one reading with this device
    ConfidenceInterval sem_ci;
    double mdc95;
    double intra;  ///< reliability of one reading with this device
};

struct Repeatability {
    std::size_t subjects = 0;
    std::size_t devices = 0;
    std::size_t repeats = 0;
    double ms_subject = 0.0;
    double ms_device = 0.0;
    double ms_interaction = 0.0;
    double ms_error = 0.0;
    double inter_random = 0.0;  ///< between devices, these standing for many
    double inter_fixed = 0.0;   ///< between devices, these being the only ones
    double intra_random = 0.0;  ///< within a device
    double intra_fixed = 0.0;
    double sem_intra = 0.0;  ///< one device throughout
    ConfidenceInterval sem_intra_ci = {};
    double sem_inter_random = 0.0;  ///< any device
    double sem_inter_fixed = 0.0;
    std::vector<DeviceRepeatability> by_device = {};
};

/// The two-way model subject x device with repeats.
///
/// Method: balanced analysis of variance; variance components from the expected mean squares, not cut off at 0, save in
/// the standard errors.
/// Missing samples: refused.
/// \throws Failure "too-few-subjects", "too-few-devices", "too-few-repeats" for fewer than two of each, "missing-cell"
/// \par Accuracy 1e-9 of R irr relInterIntra() for the published table of 29 subjects
/// \par Reference M. Eliasziw, S. L. Young, M. G. Woodbury and K. Fryday-Field 1994, Phys Ther 74:777
[[nodiscard]] Repeatability repeatability(const ReplicatedTable& table, double confidence = 0.95);

}  // namespace jointrom
