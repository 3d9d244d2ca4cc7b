#include <jointrom/recording/column_role.hpp>

#include "table_by_hand.hpp"

#include <support/catch.hpp>

#include <cmath>
#include <random>

using namespace jointrom;
using test::HandColumn;
using test::series;
using test::table_by_hand;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> ticks(double step, double start = 0.0) {
    return series(400, [=](double i) { return start + step * i; });
}

std::vector<double> bend(double size, double start = 0.0) {
    return series(400, [=](double i) { return start + size * (1.0 - std::cos(i / 30.0)); });
}

std::vector<double> crackle(double size) {
    std::mt19937 random(7);
    return series(400, [&](double) { return size * (static_cast<double>(random() % 2001) / 1000.0 - 1.0); });
}

/// The roles of columns that only their heading and unit tell apart.
ColumnRole role_of(const std::string& heading, const std::string& unit) {
    const Table table = table_by_hand({{"Time", "s", ticks(0.01)}, {heading, unit, bend(1.7)}});
    return column_roles(table, {}, "a.csv").of[1];
}

}  // namespace

TEST_CASE("units and words of a heading tell the role", "[recording][column_role]") {
    CHECK(role_of("Ch 2", "deg") == ColumnRole::angle);
    CHECK(role_of("Knee angle", "") == ColumnRole::angle);
    CHECK(role_of("Biceps angle", "") == ColumnRole::angle);
    CHECK(role_of("Goniometer", "V") == ColumnRole::angle);
    CHECK(role_of("Goniometer", "mV") == ColumnRole::angle);
    CHECK(role_of("Ellenbogenwinkel", "") == ColumnRole::angle);
    CHECK(role_of("Ángulo", "rad") == ColumnRole::angle);
    CHECK(role_of("IMU_LeftElbow_Ext.-Flex.", "") == ColumnRole::angle);
    CHECK(role_of("Elbow", "") == ColumnRole::angle);
    CHECK(role_of("Biceps", "mV") == ColumnRole::emg);
    CHECK(role_of("RF", "") == ColumnRole::emg);
    CHECK(role_of("Flexor carpi radialis", "V") == ColumnRole::emg);
    CHECK(role_of("EMG1", "counts") == ColumnRole::emg);
    CHECK(role_of("Ch 1", "uV") == ColumnRole::emg);
    CHECK(role_of("Triceps", "%") == ColumnRole::emg);
    CHECK(role_of("Angular velocity", "deg/s") == ColumnRole::other);
    CHECK(role_of("Elbow moment", "Nm") == ColumnRole::other);
    CHECK(role_of("Gyro x", "") == ColumnRole::other);
    CHECK(role_of("Force", "N") == ColumnRole::other);
    CHECK(role_of("Temperature", "deg") == ColumnRole::other);
}

TEST_CASE("time is found by its unit, its name and its content", "[recording][column_role]") {
    const std::vector<HandColumn> columns{
        {"Zeit", "", ticks(0.02)}, {"t", "ms", ticks(20)}, {"", "", ticks(0.02, 7.0)}};
    for (const HandColumn& time : columns) {
        CAPTURE(time.heading);
        const Table table = table_by_hand({{"Angle", "deg", bend(40)}, time});
        const ColumnRoles roles = column_roles(table, {}, "a.csv");
        CHECK(roles.of[1] == ColumnRole::time);
        CHECK(roles.time_of[0] == 1U);
    }
}

TEST_CASE("a column that counts rows is no time and no angle", "[recording][column_role]") {
    const Table table = table_by_hand({{"Sample", "", ticks(1, 1)}, {"", "", ticks(1)}, {"Angle", "deg", bend(40)}});
    const ColumnRoles roles = column_roles(table, {}, "a.csv");
    CHECK(roles.of[0] == ColumnRole::counter);
    CHECK(roles.of[1] == ColumnRole::counter);
    CHECK_FALSE(roles.time_of[2].has_value());
    CHECK(roles.angle == 2U);
}

TEST_CASE("of several angles the best named one is taken and the others are named", "[recording][column_role]") {
    const Table table = table_by_hand({{"Time", "s", ticks(0.01)},
                                       {"Pitch", "deg", bend(60)},
                                       {"Knee angle", "deg", bend(30)},
                                       {"Hip", "", bend(10)}});
    const ColumnRoles roles = column_roles(table, {}, "a.csv");
    CHECK(roles.angle == 2U);
    CHECK(roles.angle_reason == "its name and unit say most; also possible: 'Pitch', 'Hip'");
}

TEST_CASE("equal angles are told apart by the file name and then by how far they moved", "[recording][column_role]") {
    const Table table =
        table_by_hand({{"Time", "s", ticks(0.01)}, {"Hip angle", "deg", bend(10)}, {"Knee angle", "deg", bend(30)}});
    CHECK(column_roles(table, {}, "P01_hip.csv").angle == 1U);
    CHECK(column_roles(table, {}, "P01.csv").angle == 2U);
    CHECK(column_roles(table, {}, "P01.csv").angle_reason == "it moved furthest; also possible: 'Hip angle'");
}

TEST_CASE("a plain angle column needs no reason and a guessed one has one", "[recording][column_role]") {
    const Table plain = table_by_hand({{"Time", "s", ticks(0.01)}, {"Angle", "", bend(30)}, {"EMG", "", crackle(1)}});
    CHECK(column_roles(plain, {}, "a.csv").angle == 1U);
    CHECK(column_roles(plain, {}, "a.csv").angle_reason.empty());
    const Table lone = table_by_hand({{"Time", "s", ticks(0.01)}, {"CH1", "V", bend(1)}, {"EMG", "", crackle(1)}});
    CHECK(column_roles(lone, {}, "a.csv").angle == 1U);
    CHECK(column_roles(lone, {}, "a.csv").angle_reason == "it is the only channel that can be one");
}

TEST_CASE("without headings the slow column is the angle and noise about zero is muscle", "[recording][column_role]") {
    const Table table = table_by_hand({{"", "", crackle(0.3)},
                                       {"", "", bend(40, 12)},
                                       {"", "", series(400, [](double i) { return i < 200 ? 0.0 : 5.0; })},
                                       {"", "", ticks(0.005)}});
    const ColumnRoles roles = column_roles(table, {}, "a.csv");
    CHECK(roles.of[0] == ColumnRole::emg);
    CHECK(roles.angle == 1U);
    CHECK(roles.of[2] == ColumnRole::other);
    CHECK(roles.of[3] == ColumnRole::time);
}

TEST_CASE("a clock without a name may be uneven and start again", "[recording][column_role]") {
    std::mt19937 random(4);
    double time = 3.1;
    std::vector<double> clock{6.0, 6.02, 6.03};
    while (clock.size() < 400) {
        clock.push_back(time += 0.001 * static_cast<double>(5 + random() % 30));
    }
    const Table table = table_by_hand({{"", "", bend(40, 12)}, {"", "", clock}});
    CHECK(column_roles(table, {}, "a.csv").time_of[0] == 1U);
}

TEST_CASE("what the user says about columns holds", "[recording][column_role]") {
    const Table table = table_by_hand(
        {{"Time", "s", ticks(0.01)}, {"Angle", "deg", bend(30)}, {"CH2", "V", bend(1)}, {"Clock", "s", ticks(0.02)}});
    const ColumnRoles roles = column_roles(table, {.time = 3, .angle = 2, .emg = {1}}, "a.csv");
    CHECK(roles.of[0] != ColumnRole::time);
    CHECK(roles.time_of[2] == 3U);
    CHECK(roles.angle == 2U);
    CHECK(roles.angle_reason.empty());
    CHECK(roles.of[1] == ColumnRole::emg);
}

TEST_CASE("channels with a time column each go with their own", "[recording][column_role]") {
    const Table table = table_by_hand({{"X [s]", "s", ticks(0.001)},
                                       {"EMG", "mV", crackle(1)},
                                       {"X [s]#2", "s", ticks(0.02)},
                                       {"Angle", "deg", bend(40)}});
    const ColumnRoles roles = column_roles(table, {}, "a.csv");
    CHECK(roles.time_of[1] == 0U);
    CHECK(roles.time_of[3] == 2U);
}

TEST_CASE("of time columns side by side the finest is used", "[recording][column_role]") {
    const Table table = table_by_hand({{"Clock", "s", series(400, [](double i) { return std::floor(i / 100); })},
                                       {"Time", "ms", ticks(10)},
                                       {"Angle", "deg", bend(40)}});
    CHECK(column_roles(table, {}, "a.csv").time_of[2] == 1U);
}

TEST_CASE("a column without values is never taken as the angle", "[recording][column_role]") {
    const Table table = table_by_hand({{"Time", "s", ticks(0.01)},
                                       {"Elbow angle", "deg", std::vector<double>(400, missing)},
                                       {"Knee", "", bend(30)}});
    CHECK(column_roles(table, {}, "a.csv").angle == 2U);
}
