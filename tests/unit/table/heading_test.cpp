#include <jointrom/table/heading.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("headings are split into quantity and unit", "[table][heading]") {
    struct Case {
        const char* heading;
        const char* quantity;
        const char* unit;
    };
    const Case cases[] = {
        {"Knee angle (deg)", "Knee angle", "deg"},
        {"Angle [°]", "Angle", "deg"},
        {"Winkel (Grad)", "Winkel", "deg"},
        {"Angle (º)", "Angle", "deg"},
        {"Angle°", "Angle", "deg"},
        {"time/s", "time", "s"},
        {"θ / rad", "θ", "rad"},
        {"Angle, degrees", "Angle", "deg"},
        {"EMG1_mV", "EMG1", "mV"},
        {"EMG biceps µV", "EMG biceps", "uV"},
        {"EMG (μV)", "EMG", "uV"},
        {"EMG (MV)", "EMG", "mV"},
        {"angle_deg", "angle", "deg"},
        {"velocity_deg_s", "velocity", "deg/s"},
        {"Gyro deg/s", "Gyro", "deg/s"},
        {"Gyro (°/s)", "Gyro", "deg/s"},
        {"Accel m/s2", "Accel", "m/s2"},
        {"Temps (ms)", "Temps", "ms"},
        {"Tiempo [seg]", "Tiempo", "s"},
        {"t_s", "t", "s"},
        {"time_ms", "time", "ms"},
        {"Time in s", "Time", "s"},
        {"Time s", "Time", "s"},
        {"Elapsed min", "Elapsed", "min"},
        {"output_V", "output", "V"},
        {"Moment (N·m)", "Moment", "Nm"},
        {"MVC %", "MVC", "%"},
        {"Reading (counts)", "Reading", "counts"},
        {"  Angle  ( deg )  ", "Angle", "deg"},
        {"Angle {rad}", "Angle", "rad"},
        // No unit, or a word that only looks like one.
        {"Knee angle (left)", "Knee angle (left)", ""},
        {"Angle min", "Angle min", ""},
        {"Finger V", "Finger V", ""},
        {"Grip N", "Grip N", ""},
        {"Cam_LeftShoulder_Ext.-Flex.", "Cam_LeftShoulder_Ext.-Flex.", ""},
        {"Flexion/Extension", "Flexion/Extension", ""},
        {"(deg)", "(deg)", ""},
        {"deg", "deg", ""},
        {"column 3", "column 3", ""},
        {"", "", ""},
    };
    for (const Case& c : cases) {
        CAPTURE(c.heading);
        CHECK(split_heading(c.heading) == Heading{c.quantity, c.unit});
    }
}

TEST_CASE("a unit that stands alone is normalised", "[table][heading]") {
    CHECK(normalised_unit("[°]") == "deg");
    CHECK(normalised_unit(" (Sec) ") == "s");
    CHECK(normalised_unit("Volt") == "V");
    CHECK(normalised_unit("m/s^2") == "m/s2");
    CHECK_FALSE(normalised_unit("").has_value());
    CHECK_FALSE(normalised_unit("angle").has_value());
    CHECK_FALSE(normalised_unit("12").has_value());
}

TEST_CASE("headings that name the time are known in several languages", "[table][heading]") {
    for (const char* heading : {"Time", "time_s", "t", "t (s)", "Zeit in s", "Temps [ms]", "Tiempo", "Timestamp",
                                "# Time", "Elapsed time", "Sample time", "Relative time (s)", "millis"}) {
        CAPTURE(heading);
        CHECK(names_time(heading));
    }
    for (const char* heading : {"", "Timer 2", "Angle", "Trial", "Torque", "Temperature", "Sample", "Lifetime"}) {
        CAPTURE(heading);
        CHECK_FALSE(names_time(heading));
    }
}
