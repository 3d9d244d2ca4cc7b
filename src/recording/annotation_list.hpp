#pragma once

/// \file
/// Time-stamped annotation lists of EDF+: ONSET [0x15 DURATION] 0x14 TEXT 0x14 [TEXT 0x14 ...] 0x00, in seconds.

#include <jointrom/recording/annotations.hpp>

#include <cstddef>
#include <string_view>

namespace jointrom {

/// Collects annotations from the bytes of annotation signals, record by record.
class AnnotationList {
  public:
    /// \param most annotations that are kept
    explicit AnnotationList(std::size_t most) : most_(most) {}

    /// Takes what one annotation signal holds of one record. The first list of the first call keeps the time of the
    /// record: times count from there on.
    void add(std::string_view bytes);

    [[nodiscard]] Annotations finish();

  private:
    void add_list(std::string_view list);

    std::size_t most_;
    std::size_t malformed_ = 0, too_many_ = 0;
    bool is_first_ = true;
    Seconds first_record_{0.0};
    std::vector<Annotation> rows_;
};

}  // namespace jointrom
