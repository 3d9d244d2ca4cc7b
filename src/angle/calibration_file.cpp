#include <jointrom/angle/calibration_file.hpp>

#include "core/setting_json.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/core/whole_file.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace jointrom {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view schema_name = "jointrom-calibration";
constexpr int schema_version = 1;
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Json number_or_null(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

[[noreturn]] void refuse(const std::string& text, const std::string& expected, Place place = {}) {
    throw Failure(FailureKind::unreadable_data, "calibration-file-invalid", text,
                  "Expected " + expected + ". Files of `calibrate` are read as they are; make the file again.",
                  std::move(place));
}

/// The keys of one JSON object, each of which must be asked for.
class StrictObject {
  public:
    StrictObject(const Json& object, std::string what) : object_(object), what_(std::move(what)) {
        if (!object.is_object()) {
            refuse(what_ + " is " + object.type_name(), "an object");
        }
    }

    const Json& value(std::string_view key) {
        asked_.push_back(key);
        const auto found = object_.find(key);
        if (found == object_.end()) {
            refuse(what_ + " has no key '" + std::string(key) + "'", "this key");
        }
        return *found;
    }

    double number(std::string_view key) {
        const Json& found = value(key);
        if (!found.is_number()) {
            refuse(where(key) + " is " + found.type_name(), "a number");
        }
        return found.get<double>();
    }

    double number_or(std::string_view key, double if_null) { return value(key).is_null() ? if_null : number(key); }

    std::string text(std::string_view key) {
        const Json& found = value(key);
        if (!found.is_string()) {
            refuse(where(key) + " is " + found.type_name(), "text");
        }
        return found.get<std::string>();
    }

    /// \throws Failure when there is a key that nobody asked for
    void finish() const {
        for (const auto& [key, found] : object_.items()) {
            if (std::ranges::find(asked_, key) == asked_.end()) {
                const auto meant = nearest(key, asked_);
                refuse(what_ + " has an unknown key '" + key + "'",
                       meant ? "'" + std::string(*meant) + "'" : std::string("no such key"));
            }
        }
    }

    [[nodiscard]] std::string where(std::string_view key) const { return "'" + std::string(key) + "' of " + what_; }

  private:
    const Json& object_;
    std::string what_;
    std::vector<std::string_view> asked_;
};

Json point_json(const Calibration& calibration, const CalibrationPoint& point) {
    return {{"known_deg", point.known_deg},
            {"known_u_deg", point.known_u_deg},
            {"reading", point.reading},
            {"reading_sd", point.reading_sd},
            {"effective_count", point.effective_count},
            {"approach", name_of(point.approach)},
            {"source", point.source},
            {"residual_deg", calibration.residual_deg(point)}};
}

Approach approach_named(const std::string& name, const std::string& where) {
    for (const Approach approach : {Approach::unknown, Approach::rising, Approach::falling}) {
        if (name == name_of(approach)) {
            return approach;
        }
    }
    refuse(where + " is '" + name + "'", "unknown, rising or falling");
}

CalibrationPoint point_of(const Json& json, const Calibration& calibration, std::size_t number) {
    StrictObject object(json, "point " + std::to_string(number));
    CalibrationPoint point;
    point.known_deg = object.number("known_deg");
    point.known_u_deg = object.number("known_u_deg");
    point.reading = object.number("reading");
    point.reading_sd = object.number("reading_sd");
    point.effective_count = object.number("effective_count");
    point.approach = approach_named(object.text("approach"), object.where("approach"));
    point.source = object.text("source");
    const double residual_deg = object.number("residual_deg");
    object.finish();
    if (point.known_u_deg < 0.0 || point.reading_sd < 0.0 || point.effective_count < 1.0) {
        refuse("point " + std::to_string(number) + " has a negative uncertainty or less than one sample",
               "uncertainties of 0 or more and a count of 1 or more");
    }
    const double tolerance_deg = 1e-6 * (1.0 + std::abs(point.known_deg));
    if (!(std::abs(residual_deg - calibration.residual_deg(point)) <= tolerance_deg)) {
        refuse("the residual of point " + std::to_string(number) + " is " + shortest_text(residual_deg) +
                   " deg, but the line gives " + fixed_text(calibration.residual_deg(point), 6),
               "points, gain and offset that belong together");
    }
    return point;
}

void read_joint(Calibration& result, StrictObject& object) {
    result.joint = object.text("joint");
    result.motion = object.text("motion");
    const std::string side = object.text("side");
    result.side = side == name_of(Side::unknown) ? Side::unknown : side_named(side);
    result.rises_with = object.text("rises_with");
    if (result.joint.empty()) {
        return;
    }
    const JointMotion& motion = joint_motion(result.joint, result.motion);
    const std::string& expected = result.gain_deg_per_unit > 0.0 ? motion.positive : motion.negative;
    if (result.rises_with != expected) {
        refuse(object.where("rises_with") + " is '" + result.rises_with + "'",
               "'" + expected + "', as the gain is " + shortest_text(result.gain_deg_per_unit));
    }
}

void read_line(Calibration& result, StrictObject& object) {
    result.unit = object.text("unit");
    result.gain_deg_per_unit = object.number("gain_deg_per_unit");
    result.offset_deg = object.number("offset_deg");
    result.u_gain_deg_per_unit = object.number_or("u_gain_deg_per_unit", missing);
    result.u_offset_deg = object.number_or("u_offset_deg", missing);
    result.correlation = object.number("correlation");
    result.degrees_of_freedom = object.number_or("degrees_of_freedom", infinite);
    result.residual_sd_deg = object.number_or("residual_sd_deg", missing);
    result.nonlinearity_deg = object.number_or("nonlinearity_deg", missing);
    result.nonlinearity_pct = object.number_or("nonlinearity_pct", missing);
    result.hysteresis_deg = object.number_or("hysteresis_deg", missing);
    result.quadratic_p = object.number_or("quadratic_p", missing);
    result.reading_min = object.number_or("reading_min", missing);
    result.reading_max = object.number_or("reading_max", missing);
    if (result.gain_deg_per_unit == 0.0) {
        refuse(object.where("gain_deg_per_unit") + " is 0", "a gain that is not 0");
    }
    if (result.u_gain_deg_per_unit < 0.0 || result.u_offset_deg < 0.0 || std::abs(result.correlation) > 1.0 ||
        !(result.degrees_of_freedom > 0.0) || result.residual_sd_deg < 0.0) {
        refuse("an uncertainty of the calibration is out of its range",
               "uncertainties of 0 or more, a correlation from -1 to 1, degrees of freedom above 0");
    }
}

Place place_of_byte(std::string_view text, std::size_t byte, const std::string& file) {
    const std::string_view before = text.substr(0, byte > 0 ? byte - 1 : 0);
    const auto lines = static_cast<std::size_t>(std::ranges::count(before, '\n'));
    const std::size_t line_start =
        before.find_last_of('\n') == std::string_view::npos ? 0 : before.find_last_of('\n') + 1;
    return {file, lines + 1, before.size() - line_start + 1};
}

Json parse_json(std::string_view text, const std::string& file) {
    try {
        return Json::parse(text);
    } catch (const Json::parse_error& error) {
        refuse("the file is no JSON", "a calibration file", place_of_byte(text, error.byte, file));
    } catch (const Json::out_of_range& error) {
        refuse(why_not_read(error), "numbers up to 1.8e308", {file});
    }
}

Calibration calibration_of(const Json& json) {
    StrictObject object(json, "the calibration file");
    if (const std::string schema = object.text("schema"); schema != schema_name) {
        refuse("the file's schema is '" + schema + "'", "'" + std::string(schema_name) + "'");
    }
    if (const double version = object.number("version"); version != schema_version) {
        refuse("the file's version is " + shortest_text(version), "version " + std::to_string(schema_version));
    }
    Calibration result;
    read_line(result, object);
    read_joint(result, object);
    const Json& points = object.value("points");
    if (!points.is_array()) {
        refuse(object.where("points") + " is " + points.type_name(), "a list of points");
    }
    object.finish();
    for (const Json& point : points) {
        result.points.push_back(point_of(point, result, result.points.size() + 1));
    }
    return result;
}

}  // namespace

std::string calibration_text(const Calibration& calibration) {
    Json json{{"schema", schema_name},
              {"version", schema_version},
              {"unit", calibration.unit},
              {"gain_deg_per_unit", calibration.gain_deg_per_unit},
              {"offset_deg", calibration.offset_deg},
              {"u_gain_deg_per_unit", number_or_null(calibration.u_gain_deg_per_unit)},
              {"u_offset_deg", number_or_null(calibration.u_offset_deg)},
              {"correlation", calibration.correlation},
              {"degrees_of_freedom", number_or_null(calibration.degrees_of_freedom)},
              {"residual_sd_deg", number_or_null(calibration.residual_sd_deg)},
              {"nonlinearity_deg", number_or_null(calibration.nonlinearity_deg)},
              {"nonlinearity_pct", number_or_null(calibration.nonlinearity_pct)},
              {"hysteresis_deg", number_or_null(calibration.hysteresis_deg)},
              {"quadratic_p", number_or_null(calibration.quadratic_p)},
              {"reading_min", number_or_null(calibration.reading_min)},
              {"reading_max", number_or_null(calibration.reading_max)},
              {"joint", calibration.joint},
              {"motion", calibration.motion},
              {"side", name_of(calibration.side)},
              {"rises_with", calibration.rises_with},
              {"points", Json::array()}};
    for (const CalibrationPoint& point : calibration.points) {
        json["points"].push_back(point_json(calibration, point));
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Calibration parse_calibration(std::string_view text, const std::string& file) {
    try {
        return calibration_of(parse_json(text, file));
    } catch (const Failure& failure) {
        throw failure.in_file(file);
    }
}

Calibration read_calibration(const std::filesystem::path& path) {
    return parse_calibration(read_whole_file(path, "calibration file"), path.string());
}

}  // namespace jointrom
