#pragma once

/// \file
/// A number for each different text.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// Hash table from texts that are kept elsewhere to their places there.
class TextPlaces {
  public:
    /// Calls equals(place) for candidates with the same hash; the first that holds is the text's place.
    /// \return the place, and whether it was there already; if not, it is `next` from now on
    template <typename Equals>
    std::pair<std::uint32_t, bool> find_or_add(std::uint64_t hash, std::uint32_t next, Equals equals) {
        if (2 * (used_ + 1) > slots_.size()) {
            grow();
        }
        const auto tag = static_cast<std::uint32_t>(hash >> 32U);
        std::size_t at = hash & (slots_.size() - 1);
        while (slots_[at].place != nothing) {
            if (slots_[at].tag == tag && equals(slots_[at].place)) {
                return {slots_[at].place, true};
            }
            at = (at + 1) & (slots_.size() - 1);
        }
        slots_[at] = {tag, next};
        hashes_low_.push_back(static_cast<std::uint32_t>(hash));
        ++used_;
        return {next, false};
    }

  private:
    static constexpr std::uint32_t nothing = 0xFFFFFFFFU;
    struct Slot {
        std::uint32_t tag = 0;
        std::uint32_t place = nothing;
    };

    void grow() {
        std::vector<Slot> larger(slots_.empty() ? 64 : 2 * slots_.size());
        for (const Slot& slot : slots_) {
            if (slot.place != nothing) {
                std::size_t at = hashes_low_[slot.place] & (larger.size() - 1);
                while (larger[at].place != nothing) {
                    at = (at + 1) & (larger.size() - 1);
                }
                larger[at] = slot;
            }
        }
        slots_ = std::move(larger);
    }

    std::vector<Slot> slots_;
    std::vector<std::uint32_t> hashes_low_;  ///< by place
    std::size_t used_ = 0;
};

[[nodiscard]] inline std::uint64_t text_hash(std::string_view text) {
    return std::hash<std::string_view>{}(text);
}

/// Texts that repeat, each with its code.
class TextCodes {
  public:
    std::uint32_t code_of(std::string_view text) {
        if (last_ < texts_.size() && texts_[last_] == text) {
            return last_;
        }
        const auto [code, known] = places_.find_or_add(text_hash(text), static_cast<std::uint32_t>(texts_.size()),
                                                       [&](std::uint32_t place) { return texts_[place] == text; });
        if (!known) {
            texts_.emplace_back(text);
        }
        last_ = code;
        return code;
    }

    [[nodiscard]] const std::vector<std::string>& texts() const noexcept { return texts_; }

  private:
    TextPlaces places_;
    std::vector<std::string> texts_;
    std::uint32_t last_ = 0;
};

}  // namespace jointrom
