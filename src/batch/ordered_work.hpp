#pragma once

/// \file
/// Work on many things by several threads, whose results come out one after another in order.

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

namespace jointrom {

/// Calls `work(i)` for 0 <= i < count on `threads` threads, the calling one among them, and `deliver(i, result)` for
/// one after another in order, never two at a time.
///
/// At most `16 * threads` results wait for their turn, so memory does not grow with the number of things. Once `stop`
/// is true no more are begun; those begun are finished and delivered. An exception stops the work and is thrown again.
/// \return how many were delivered
template <typename Result, typename Work, typename Deliver>
class OrderedWork {
  public:
    OrderedWork(std::size_t count, const Work& work, const Deliver& deliver, const std::atomic<bool>& stop)
        : count_(count), work_(work), deliver_(deliver), stop_(stop) {}

    std::size_t run(std::size_t threads) {
        threads = std::clamp<std::size_t>(threads, 1, std::max<std::size_t>(count_, 1));
        waiting_.resize(16 * threads);
        std::vector<std::jthread> others;
        for (std::size_t t = 1; t < threads; ++t) {
            others.emplace_back([this] { take_turns(); });
        }
        take_turns();
        others.clear();  // joins
        if (error_) {
            std::rethrow_exception(error_);
        }
        return delivered_;
    }

  private:
    void take_turns() {
        std::unique_lock lock(mutex_);
        try {
            while (true) {
                changed_.wait(lock, [&] { return error_ || next_ - delivered_ < waiting_.size(); });
                if (error_ || next_ == count_ || stop_) {
                    return;
                }
                const std::size_t i = next_++;
                lock.unlock();
                Result result = work_(i);
                lock.lock();
                waiting_[i % waiting_.size()] = std::move(result);
                hand_over(lock);
            }
        } catch (...) {
            if (!lock.owns_lock()) {
                lock.lock();
            }
            error_ = error_ ? error_ : std::current_exception();
            changed_.notify_all();
        }
    }

    void hand_over(std::unique_lock<std::mutex>& lock) {
        if (delivering_) {
            return;  // whoever delivers finds this result when its turn comes
        }
        delivering_ = true;
        while (auto& result = waiting_[delivered_ % waiting_.size()]) {
            Result taken = std::move(*result);
            result.reset();
            lock.unlock();
            deliver_(delivered_, std::move(taken));
            lock.lock();
            ++delivered_;
            changed_.notify_all();
        }
        delivering_ = false;
    }

    std::size_t count_;
    const Work& work_;
    const Deliver& deliver_;
    const std::atomic<bool>& stop_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::vector<std::optional<Result>> waiting_;  ///< by index, modulo its size
    std::size_t next_ = 0;
    std::size_t delivered_ = 0;
    bool delivering_ = false;
    std::exception_ptr error_;
};

}  // namespace jointrom
