#include "simulate/portable_math.hpp"

#include <cmath>
#include <numbers>

namespace jointrom {

double portable_log(double x) noexcept {
    int exponent = 0;
    double mantissa = std::frexp(x, &exponent);
    if (mantissa < 0.5 * std::numbers::sqrt2) {
        mantissa *= 2.0;
        --exponent;
    }
    const double s = (mantissa - 1.0) / (mantissa + 1.0);  // log m = 2 artanh s, |s| < 0.172
    double sum = 0.0;
    for (int power = 21; power >= 1; power -= 2) {
        sum = sum * s * s + 1.0 / power;
    }
    return exponent * std::numbers::ln2 + 2.0 * s * sum;
}

double sine_of_turns(double turns) noexcept {
    double rest = turns - std::floor(turns);
    const double sign = rest < 0.5 ? 1.0 : -1.0;
    rest = rest < 0.5 ? rest : rest - 0.5;
    rest = rest < 0.25 ? rest : 0.5 - rest;
    const double x = 2.0 * std::numbers::pi * rest;
    double sum = 1.0;
    for (int n = 20; n >= 2; n -= 2) {  // Taylor's series, x at most a right angle
        sum = 1.0 - sum * x * x / (n * (n + 1.0));
    }
    return sign * x * sum;
}

}  // namespace jointrom
