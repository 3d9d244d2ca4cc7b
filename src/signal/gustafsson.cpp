#include "gustafsson.hpp"

#include <jointrom/signal/section_cascade.hpp>

#include <Eigen/Dense>

namespace jointrom {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using States = std::vector<SectionState>;

template <typename Column>
void forward_from_rest(Column&& column, const Sections& sections) {
    States state(sections.size());
    run_forward({column.data(), static_cast<std::size_t>(column.size())}, sections, state);
}

template <typename Column>
void backward_from_rest(Column&& column, const Sections& sections) {
    States state(sections.size());
    run_backward({column.data(), static_cast<std::size_t>(column.size())}, sections, state);
}

/// A column per state variable: what the cascade puts out, without input, when only that variable starts at 1.
MatrixXd zero_input_responses(Eigen::Index count, const Sections& sections) {
    const auto section_count = static_cast<Eigen::Index>(sections.size());
    MatrixXd responses = MatrixXd::Zero(count, 2 * section_count);
    for (Eigen::Index k = 0; k < section_count; ++k) {
        for (const bool second : {false, true}) {
            States state(sections.size());
            (second ? state[static_cast<std::size_t>(k)].s2 : state[static_cast<std::size_t>(k)].s1) = 1.0;
            auto column = responses.col(2 * k + (second ? 1 : 0));
            run_forward({column.data(), static_cast<std::size_t>(count)}, sections, state);
        }
    }
    return responses;
}

}  // namespace

std::vector<double> gustafsson_zero_phase(std::span<const double> samples, const Sections& sections) {
    const auto count = static_cast<Eigen::Index>(samples.size());
    const Eigen::Map<const VectorXd> x(samples.data(), count);

    VectorXd forward_backward = x;
    forward_from_rest(forward_backward, sections);
    backward_from_rest(forward_backward, sections);
    VectorXd backward_forward = x;
    backward_from_rest(backward_forward, sections);
    forward_from_rest(backward_forward, sections);

    // Effects on both orders of passes of the states at the start (first half) and at the end (second half).
    const MatrixXd start_once = zero_input_responses(count, sections);
    const Eigen::Index states = start_once.cols();
    MatrixXd on_forward_backward(count, 2 * states);
    on_forward_backward << start_once, start_once.colwise().reverse();
    MatrixXd on_backward_forward = on_forward_backward;
    for (Eigen::Index k = 0; k < states; ++k) {
        backward_from_rest(on_forward_backward.col(k), sections);
        forward_from_rest(on_backward_forward.col(states + k), sections);
    }

    const VectorXd best = (on_forward_backward - on_backward_forward)
                              .completeOrthogonalDecomposition()
                              .solve(backward_forward - forward_backward);
    const VectorXd result = forward_backward + on_forward_backward * best;
    return {result.begin(), result.end()};
}

}  // namespace jointrom
