#include <support/reference_file.hpp>

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace jointrom::test {

std::filesystem::path tests_path(const std::string& relative) {
    return std::filesystem::path(JOINTROM_TESTS) / relative;
}

nlohmann::json reference_json(const std::string& relative) {
    std::ifstream in(tests_path(relative));
    if (!in) {
        throw std::runtime_error("no reference file " + relative);
    }
    return nlohmann::json::parse(in);
}

std::vector<double> reference_column(const std::string& relative, const std::string& heading) {
    std::ifstream in(tests_path(relative));
    std::string line;
    std::getline(in, line);
    std::size_t column = 0;
    std::istringstream heads(line);
    std::string cell;
    for (; std::getline(heads, cell, ',') && cell != heading; ++column) {
    }
    if (cell != heading) {
        throw std::runtime_error(relative + " has no column " + heading);
    }
    std::vector<double> values;
    while (std::getline(in, line)) {
        std::istringstream row(line);
        for (std::size_t c = 0; std::getline(row, cell, ','); ++c) {
            if (c == column) {
                values.push_back(std::stod(cell));
            }
        }
    }
    return values;
}

}  // namespace jointrom::test
