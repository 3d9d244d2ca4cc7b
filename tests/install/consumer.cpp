#include <jointrom/core/number_text.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/core/version.hpp>

#include <iostream>

int main() {
    jointrom::Budget budget;
    budget.add({.input = "calibration", .u = 0.3});
    budget.add({.input = "zero", .u = 0.4});
    std::cout << "jointrom " << jointrom::version() << '\n'
              << "u " << jointrom::fixed_text(budget.standard_uncertainty(), 3) << " deg\n";
}
