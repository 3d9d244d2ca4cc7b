#include <jointrom/signal/butterworth.hpp>

#include <jointrom/core/failure.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

using Complex = std::complex<double>;
using std::numbers::pi;

void require_servable(Hertz cutoff, Hertz rate) {
    assert(rate.value() > 0.0);
    if (!(cutoff.value() > 0.0)) {
        throw Failure(FailureKind::usage, "cutoff-not-positive",
                      fmt::format("a filter cut-off of {} Hz was asked for; it must be above 0 Hz", cutoff.value()));
    }
    if (!(cutoff.value() < rate.value() / 2.0)) {
        throw Failure(
            FailureKind::usage, "cutoff-too-high",
            fmt::format("a filter cut-off of {:g} Hz was asked for, but samples taken at {:g} Hz hold nothing "
                        "above {:g} Hz",
                        cutoff.value(), rate.value(), rate.value() / 2.0),
            "choose a lower cut-off, or record at a higher rate");
    }
}

void require_band(Hertz low, Hertz high, Hertz rate) {
    require_servable(low, rate);
    require_servable(high, rate);
    if (low >= high) {
        throw Failure(FailureKind::usage, "band-edges-reversed",
                      fmt::format("a band from {:g} Hz to {:g} Hz was asked for", low.value(), high.value()),
                      "give the lower edge first");
    }
}

/// Frequency of the analogue prototype that the bilinear transform z = (1 + s) / (1 - s) maps to `frequency`.
double warped(Hertz frequency, Hertz rate) {
    return std::tan(pi * frequency.value() / rate.value());
}

/// Damping 1/Q of the k-th pair of poles, the least damped first.
double pair_damping(int order, int k) {
    return 2.0 * std::sin(pi * (2 * k + 1) / (2.0 * order));
}

Complex response(const Section& s, Complex z) {
    const Complex delay = 1.0 / z;
    return (s.b0 + delay * (s.b1 + delay * s.b2)) / (1.0 + delay * (s.a1 + delay * s.a2));
}

/// Section with the given zeros and the two poles that are the images of s-plane poles `p` and `q`, which are conjugate
/// or both real; its gain is 1 at `unity`, a point on the unit circle.
Section band_section(double b1, double b2, Complex p, Complex q, Complex unity) {
    const Complex z_p = (1.0 + p) / (1.0 - p);
    const Complex z_q = (1.0 + q) / (1.0 - q);
    Section section{1.0, b1, b2, -(z_p + z_q).real(), (z_p * z_q).real()};
    const double gain = 1.0 / std::abs(response(section, unity));
    section.b0 *= gain;
    section.b1 *= gain;
    section.b2 *= gain;
    return section;
}

enum class Band { pass, stop };

Sections band_filter(Band band, int order_per_edge, Hertz low, Hertz high, Hertz rate) {
    assert(order_per_edge >= 1);
    require_band(low, high, rate);
    const double w_low = warped(low, rate);
    const double w_high = warped(high, rate);
    const double centre_squared = w_low * w_high;
    const double half_width = (w_high - w_low) / 2.0;
    // Zeros at 0 Hz and rate/2 for a pass band, at the centre for a stop band.
    const double b1 = band == Band::pass ? 0.0 : -2.0 * (1.0 - centre_squared) / (1.0 + centre_squared);
    const double b2 = band == Band::pass ? -1.0 : 1.0;
    const Complex unity =
        band == Band::pass ? std::polar(1.0, 2.0 * std::atan(std::sqrt(centre_squared))) : Complex(1.0);

    Sections sections;
    for (int k = 0; 2 * k < order_per_edge; ++k) {
        const bool real_pole = 2 * k + 1 == order_per_edge;
        const Complex prototype =
            real_pole ? Complex(-1.0) : std::polar(1.0, pi * (2 * k + order_per_edge + 1) / (2.0 * order_per_edge));
        const Complex middle = band == Band::pass ? prototype * half_width : half_width / prototype;
        const Complex offset = std::sqrt(middle * middle - centre_squared);
        if (real_pole) {
            sections.push_back(band_section(b1, b2, middle + offset, middle - offset, unity));
        } else {
            sections.push_back(band_section(b1, b2, middle + offset, std::conj(middle + offset), unity));
            sections.push_back(band_section(b1, b2, middle - offset, std::conj(middle - offset), unity));
        }
    }
    std::ranges::reverse(sections);
    return sections;
}

double pass_correction(int order, int passes) {
    assert(order >= 1 && passes >= 1);
    return std::pow(std::pow(2.0, 1.0 / passes) - 1.0, 1.0 / (2.0 * order));
}

Hertz unwarped(double tangent, Hertz rate) {
    return Hertz(rate.value() / pi * std::atan(tangent));
}

double largest_pole_radius(const Section& s) {
    const Complex root = std::sqrt(Complex(s.a1 * s.a1 / 4.0 - s.a2));
    return std::max(std::abs(-s.a1 / 2.0 + root), std::abs(-s.a1 / 2.0 - root));
}

}  // namespace

Sections butterworth_lowpass(int order, Hertz cutoff, Hertz rate) {
    assert(order >= 1);
    require_servable(cutoff, rate);
    const double w = warped(cutoff, rate);
    Sections sections;
    if (order % 2 == 1) {
        sections.push_back({w / (1.0 + w), w / (1.0 + w), 0.0, (w - 1.0) / (w + 1.0), 0.0});
    }
    for (int k = order / 2 - 1; k >= 0; --k) {
        const double damping = pair_damping(order, k);
        const double d = 1.0 + w * damping + w * w;
        const double b = w * w / d;
        sections.push_back({b, 2.0 * b, b, 2.0 * (w * w - 1.0) / d, (1.0 - w * damping + w * w) / d});
    }
    return sections;
}

Sections butterworth_highpass(int order, Hertz cutoff, Hertz rate) {
    // The same poles; the zeros move from rate/2 to 0 Hz.
    Sections sections = butterworth_lowpass(order, cutoff, rate);
    for (Section& s : sections) {
        const bool first_order = s.b2 == 0.0;
        const double b = first_order ? (1.0 - s.a1) / 2.0 : (1.0 - s.a1 + s.a2) / 4.0;
        s.b0 = b;
        s.b1 = first_order ? -b : -2.0 * b;
        s.b2 = first_order ? 0.0 : b;
    }
    return sections;
}

Sections butterworth_bandpass(int order_per_edge, Hertz low, Hertz high, Hertz rate) {
    return band_filter(Band::pass, order_per_edge, low, high, rate);
}

Sections butterworth_bandstop(int order_per_edge, Hertz low, Hertz high, Hertz rate) {
    return band_filter(Band::stop, order_per_edge, low, high, rate);
}

Sections notch(Hertz centre, double q, Hertz rate) {
    assert(q > 0.0);
    require_servable(centre, rate);
    const double angle = 2.0 * pi * centre.value() / rate.value();
    const double gain = 1.0 / (1.0 + std::tan(angle / q / 2.0));
    return {{gain, -2.0 * gain * std::cos(angle), gain, -2.0 * gain * std::cos(angle), 2.0 * gain - 1.0}};
}

Hertz design_cutoff(Hertz wanted, int order, int passes, Hertz rate) {
    require_servable(wanted, rate);
    return unwarped(warped(wanted, rate) / pass_correction(order, passes), rate);
}

Hertz highpass_design_cutoff(Hertz wanted, int order, int passes, Hertz rate) {
    require_servable(wanted, rate);
    return unwarped(warped(wanted, rate) * pass_correction(order, passes), rate);
}

Complex frequency_response(const Sections& sections, Hertz frequency, Hertz rate) {
    const Complex z = std::polar(1.0, 2.0 * pi * frequency.value() / rate.value());
    Complex product = 1.0;
    for (const Section& section : sections) {
        product *= response(section, z);
    }
    return product;
}

std::size_t settling_samples(const Sections& sections, double residue) {
    double slowest = 0.0;
    for (const Section& section : sections) {
        slowest = std::max(slowest, largest_pole_radius(section));
    }
    if (slowest <= 0.0) {
        return 0;
    }
    // A pole that rounding puts on the circle never settles.
    constexpr double never = 1e15;
    const double samples = slowest < 1.0 ? std::log(residue) / std::log(slowest) : never;
    return static_cast<std::size_t>(std::ceil(std::min(samples, never)));
}

}  // namespace jointrom
