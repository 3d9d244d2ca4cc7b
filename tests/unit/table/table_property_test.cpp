// Laws of the reader on tables made at random: what is written in any dialect is read back, and no bytes crash it.

#include <jointrom/core/failure.hpp>
#include <jointrom/table/table_reader.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <limits>
#include <random>
#include <sstream>
#include <string>
#include <vector>

using namespace jointrom;

namespace {

using Random = std::mt19937_64;

std::size_t below(Random& random, std::size_t n) {
    return static_cast<std::size_t>(random() % n);
}
bool chance(Random& random, unsigned percent) {
    return random() % 100 < percent;
}

struct Written {
    std::string text;
    char delimiter = ',';
    char decimal_mark = '.';
    std::size_t first_line = 1;
    std::vector<std::string> headings;
    std::vector<std::vector<double>> columns;
};

/// How the numbers of one column are written.
std::string number_text(double value, int decimals, char decimal_mark) {
    std::string text = decimals >= 0 ? fmt::format("{:.{}f}", value, decimals) : fmt::format("{}", value);
    std::replace(text.begin(), text.end(), '.', decimal_mark);
    return text;
}

double random_value(Random& random, int decimals) {
    const double value = std::ldexp(static_cast<double>(random() >> 11), -53) * 400.0 - 200.0;
    // What is written with few decimals is meant to be read back as that decimal number.
    return decimals >= 0 ? std::stod(fmt::format("{:.{}f}", value, decimals)) : value;
}

/// A table in a random dialect: delimiter, decimal mark, line ends, padding, quotes, lines above, units, missing cells.
Written random_table(Random& random) {
    struct Marks {
        char delimiter;
        char decimal_mark;
    };
    constexpr Marks marks[] = {{',', '.'},  {';', '.'}, {';', ','}, {'\t', '.'},
                               {'\t', ','}, {'|', '.'}, {' ', '.'}, {' ', ','}};
    const Marks mark = marks[below(random, std::size(marks))];
    Written table;
    table.delimiter = mark.delimiter;
    table.decimal_mark = mark.decimal_mark;
    const bool blanks = mark.delimiter == ' ';
    const std::string line_end = chance(random, 30) ? "\r\n" : chance(random, 10) ? "\r" : "\n";
    const std::size_t columns = 2 + below(random, 6);
    const std::size_t rows = 5 + below(random, chance(random, 10) ? 20000 : 40);
    for (std::size_t i = 0, count = below(random, 4); i < count; ++i) {
        table.text += (chance(random, 50) ? "Recorded in the lab" : "# remark " + std::to_string(i)) + line_end;
        ++table.first_line;
    }
    std::vector<int> decimals;
    for (std::size_t c = 0; c < columns; ++c) {
        decimals.push_back(chance(random, 20) ? -1 : 1 + static_cast<int>(below(random, 6)));
        table.headings.push_back((c == 0 ? "Time" : "Channel_" + std::to_string(c)) + (blanks ? "_s" : " (s)"));
        table.text += (c > 0 ? std::string(1, mark.delimiter) : "") + table.headings.back();
    }
    table.text += line_end;
    ++table.first_line;
    table.columns.resize(columns);
    const bool padded = chance(random, 30);
    const bool quoted = chance(random, 10);
    const bool trailing = !blanks && chance(random, 10);
    for (std::size_t row = 0; row < rows; ++row) {
        for (std::size_t c = 0; c < columns; ++c) {
            const bool missing = row > 1 && c > 0 && chance(random, 8);
            const double value = c == 0 ? static_cast<double>(row) / 100.0 : random_value(random, decimals[c]);
            std::string cell = missing ? (blanks || chance(random, 50) ? "NaN" : "")
                                       : number_text(value, c == 0 ? 2 : decimals[c], mark.decimal_mark);
            cell = quoted && chance(random, 30) ? "\"" + cell + "\"" : cell;
            cell = padded ? std::string(below(random, 3), ' ') + cell + std::string(below(random, 2), ' ') : cell;
            table.text += (c > 0 ? std::string(1, mark.delimiter) : "") + cell;
            table.columns[c].push_back(missing ? std::numeric_limits<double>::quiet_NaN() : value);
        }
        table.text += trailing ? std::string(1, mark.delimiter) : "";
        table.text += row + 1 < rows || chance(random, 50) ? line_end : "";
    }
    return table;
}

bool same(const std::vector<double>& a, const std::vector<double>& b) {
    return std::ranges::equal(a, b, [](double x, double y) { return x == y || (std::isnan(x) && std::isnan(y)); });
}

/// Reads and lets refusals pass; anything else that is thrown or crashes fails the test.
bool is_read(const std::string& bytes, const TableOptions& options = {}) {
    try {
        const Table table = read_table_text(bytes, "fuzz", options);
        std::size_t cells = 0;
        for (const TableColumn& column : table.columns) {
            cells += column.values.size();
            REQUIRE((column.values.size() == table.description.rows || !column.is_numeric));
        }
        REQUIRE(table.description.block_used < table.description.blocks.size());
        REQUIRE(table.description.headings.size() == table.columns.size());
        REQUIRE(table.description.units.size() == table.columns.size());
        for (std::size_t row = 1; row < table.description.rows; ++row) {
            REQUIRE(table.line_of_row(row) > table.line_of_row(row - 1));
        }
        return cells > 0;
    } catch (const Failure& failure) {
        REQUIRE_FALSE(failure.code().empty());
        REQUIRE(failure.place().file == "fuzz");
        return false;
    }
}

std::vector<std::string> small_exports() {
    std::vector<std::string> texts;
    for (const auto& entry : std::filesystem::directory_iterator(test::tests_path("data/exports"))) {
        if (entry.path().extension() != ".json" && entry.file_size() < 4000) {
            std::ifstream in(entry.path(), std::ios::binary);
            texts.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
        }
    }
    std::ranges::sort(texts);
    return texts;
}

/// One small change such as a transfer or a careless edit makes, or an unkind one.
void mutate(std::string& text, Random& random) {
    constexpr std::string_view bytes = "0123456789.,;:-+\t |\"'\r\n\r\n#%eEnaN\0\x1A\xFF\xC3\xB0 =@/()[]TZ";
    if (text.empty()) {
        return;
    }
    const std::size_t at = below(random, text.size());
    const std::size_t length = std::min(text.size() - at, 1 + below(random, 12));
    switch (below(random, 6)) {
    case 0:
        text[at] = bytes[below(random, bytes.size())];
        break;
    case 1:
        text.insert(at, 1 + below(random, 4), bytes[below(random, bytes.size())]);
        break;
    case 2:
        text.erase(at, length);
        break;
    case 3:
        text.insert(below(random, text.size()), text.substr(at, 10 * length));
        break;
    case 4:
        text.resize(at);
        break;
    default:
        text[at] = static_cast<char>(random());
        break;
    }
}

}  // namespace

TEST_CASE("a table written in any dialect is read back as it was", "[table][property]") {
    for (unsigned seed = 1; seed <= 1000; ++seed) {
        Random random(seed);
        const Written written = random_table(random);
        CAPTURE(seed, written.text.substr(0, 300));
        try {
            const Table table = read_table_text(written.text, "x");
            CHECK(table.description.dialect.delimiter == written.delimiter);
            CHECK(table.description.dialect.decimal_mark == written.decimal_mark);
            CHECK(table.description.headings == written.headings);
            CHECK(table.first_data_line == written.first_line);
            REQUIRE(table.columns.size() == written.columns.size());
            for (std::size_t c = 0; c < table.columns.size(); ++c) {
                const bool equal = same(table.columns[c].values, written.columns[c]);
                CAPTURE(c);
                CHECK(equal);
            }
        } catch (const Failure& failure) {
            FAIL_CHECK(failure.code() << " at " << failure.place().text() << ": " << failure.what());
        }
    }
}

TEST_CASE("a table comes out the same whatever pieces its bytes come in", "[table][property]") {
    Random random(77);
    for (int i = 0; i < 20; ++i) {
        const Written written = random_table(random);
        const Table whole = read_table_text(written.text, "x");
        std::istringstream stream(written.text);
        const Table piecewise = read_table(*stream_source(stream), "x");
        REQUIRE(piecewise.columns.size() == whole.columns.size());
        for (std::size_t c = 0; c < whole.columns.size(); ++c) {
            const bool equal = same(whole.columns[c].values, piecewise.columns[c].values);
            CHECK(equal);
        }
    }
}

TEST_CASE("changed exports are read or refused with a reason", "[table][robustness]") {
    const std::vector<std::string> texts = small_exports();
    REQUIRE(texts.size() >= 60);
    std::size_t read = 0;
    for (unsigned seed = 1; seed <= 5000; ++seed) {
        Random random(seed);
        std::string text = texts[below(random, texts.size())];
        for (std::size_t i = 0, changes = 1 + below(random, 8); i < changes; ++i) {
            mutate(text, random);
        }
        CAPTURE(seed);
        read += is_read(text) ? 1U : 0U;
        if (seed % 4 == 0) {
            is_read(text,
                    {.delimiter = ",;\t| "[seed / 4 % 5], .decimal_mark = ".,"[seed / 20 % 2], .trial = seed % 3 + 1});
        }
    }
    // Most small changes leave a table that can be read.
    CHECK(read > 1500);
}

TEST_CASE("bytes at random are read or refused with a reason", "[table][robustness]") {
    constexpr std::string_view likely = "0123456789.,;:-+\t |\"\r\n\neEnaT/";
    for (unsigned seed = 1; seed <= 5000; ++seed) {
        Random random(seed);
        std::string bytes(below(random, 600), '\0');
        const bool any = chance(random, 20);
        for (char& c : bytes) {
            c = any ? static_cast<char>(random()) : likely[below(random, likely.size())];
        }
        CAPTURE(seed);
        is_read(bytes);
    }
}
