#pragma once

/// \file
/// Repeated values of many subjects, one mean each.

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace jointrom {

struct SubjectMean {
    std::uint32_t subject;
    std::uint32_t count;  ///< values that are not missing; at least one
    double mean;
};

struct SubjectMeanList {
    std::vector<SubjectMean> means;  ///< by rising number of the subject
    double within_squares = 0.0;     ///< squared distances from the subject's own mean, all subjects together
    std::size_t within_dof = 0;      ///< values less subjects
};

/// Averages by subject; a workspace that is made once for many uses.
class SubjectMeans {
  public:
    /// \param subjects subjects have numbers below that
    explicit SubjectMeans(std::size_t subjects);
    ~SubjectMeans();

    /// Method: sums that do not depend on the order of the values, not even in the last bit.
    /// Missing samples: skipped; a subject without values has no mean.
    /// \pre as many subjects as values, each below the number given before
    [[nodiscard]] SubjectMeanList of(std::span<const double> values, std::span<const std::uint32_t> subjects);

  private:
    struct Entry;
    std::vector<Entry> entries_;
};

}  // namespace jointrom
