#include <table/column_store.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#ifdef __linux__
#include <sys/mman.h>
#endif

namespace jointrom {
namespace {

constexpr std::size_t rows_per_step = 4096;

/// Makes room in large pages, whose first use is several times faster; that is a hint, which may be refused.
void reserve_large_pages(std::vector<double>& values, std::size_t capacity) {
    values.reserve(capacity);
#ifdef __linux__
    constexpr std::uintptr_t page = 4096;
    constexpr std::size_t worth_it = std::size_t{4} << 20;
    const std::size_t bytes = values.capacity() * sizeof(double);
    if (bytes >= worth_it) {
        char* const first = reinterpret_cast<char*>(values.data());
        const std::size_t to_page = (page - reinterpret_cast<std::uintptr_t>(first) % page) % page;
        madvise(first + to_page, (bytes - to_page) / page * page, MADV_HUGEPAGE);
    }
#endif
}

}  // namespace

ColumnStore::ColumnStore(std::vector<Column> columns, std::vector<double> missing_values, std::size_t expected_rows)
    : columns_(std::move(columns)), missing_values_(std::move(missing_values)),
      step_(expected_rows == 0 ? rows_per_step : std::min(rows_per_step, expected_rows + 1)) {
    const bool any_dropped = std::ranges::any_of(columns_, [](const Column& column) { return !column.keep; });
    scratch_.resize(any_dropped ? step_ : 0);
    for (Column& column : columns_) {
        slots_.push_back({nullptr, column.kind});
        if (column.keep && expected_rows > 0) {
            reserve_large_pages(column.values, expected_rows + step_ + 1);
        }
    }
    make_room();
}

void ColumnStore::make_room() {
    settle();
    room_ = rows_ + step_;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        if (std::vector<double>& values = columns_[c].values; columns_[c].keep) {
            if (values.capacity() < room_) {
                reserve_large_pages(values, std::max(room_, 2 * values.capacity()));
            }
            values.resize(room_);
            slots_[c].values = values.data() + rows_;
        } else {
            slots_[c].values = scratch_.data();
        }
    }
}

/// Looks through the rows filled since the last time: stated missing values become NaN, and all NaN are counted.
void ColumnStore::settle() {
    const std::size_t count = rows_ - begin_;
    for (std::size_t c = 0; c < columns_.size() && count > 0; ++c) {
        double* const values = slots_[c].values;
        for (const double missing : missing_values_) {
            std::replace(values, values + count, missing, std::numeric_limits<double>::quiet_NaN());
        }
        columns_[c].missing +=
            static_cast<std::size_t>(std::count_if(values, values + count, [](double v) { return std::isnan(v); }));
    }
    begin_ = rows_;
}

bool ColumnStore::has_values(std::size_t c) const {
    const double* const recent = slots_[c].values;
    return columns_[c].missing < begin_ ||
           std::any_of(recent, recent + (rows_ - begin_), [](double v) { return !std::isnan(v); });
}

void ColumnStore::change_kind(std::size_t c, CellKind kind) {
    columns_[c].kind = kind;
    slots_[c].kind = kind;
}

std::vector<ColumnStore::Column> ColumnStore::finish() {
    settle();
    for (Column& column : columns_) {
        if (column.keep) {
            column.values.resize(rows_);
        }
    }
    return std::move(columns_);
}

}  // namespace jointrom
