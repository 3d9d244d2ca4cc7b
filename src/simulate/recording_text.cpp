#include <jointrom/core/number_text.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <cmath>

namespace jointrom {
namespace {

/// The fewest decimals that keep every step of `step` apart and exact, six at most.
int decimals_for(double step) {
    double power = 1.0;
    for (int decimals = 0; decimals < 6; ++decimals) {
        const double scaled = step * power;
        power *= 10.0;
        if (scaled > 0.5 && std::abs(scaled - std::round(scaled)) < 1e-9 * scaled) {
            return decimals;
        }
    }
    return 6;
}

/// The name, with the unit behind it unless units have a row of their own.
std::string heading(const std::string& name, const std::string& unit, const LoggerModel& logger) {
    const auto* const brackets = logger.square_brackets ? "[]" : "()";
    return logger.units_in_row ? name : name + " " + brackets[0] + unit + brackets[1];
}

class Writer {
  public:
    explicit Writer(const LoggerModel& logger) : logger_(logger) {
        if (logger.byte_order_mark) {
            text_ = "\xEF\xBB\xBF";
        }
    }
    void cell(std::string_view text) {
        if (!is_first_) {
            text_ += logger_.delimiter;
        }
        text_ += text;
        is_first_ = false;
    }
    void number(double value, int decimals) {
        std::string text = fixed_text(value, decimals);
        if (const std::size_t mark = text.find('.'); mark != std::string::npos) {
            text[mark] = logger_.decimal_mark;
        }
        cell(text);
    }
    void end_row() {
        text_ += logger_.carriage_returns ? "\r\n" : "\n";
        is_first_ = true;
    }
    [[nodiscard]] std::string take() { return std::move(text_); }

  private:
    const LoggerModel& logger_;
    std::string text_;
    bool is_first_ = true;
};

std::string angle_name(const SimulatedRecording& recording) {
    if (!recording.logger.angle_heading.empty()) {
        return recording.logger.angle_heading;
    }
    std::string name = recording.plan.motion->joint + " angle";
    name[0] = name[0] >= 'a' && name[0] <= 'z' ? static_cast<char>(name[0] - 'a' + 'A') : name[0];
    return name;
}

void write_headings(Writer& writer, const SimulatedRecording& recording) {
    const LoggerModel& logger = recording.logger;
    writer.cell(heading("Time", "s", logger));
    writer.cell(heading(angle_name(recording), recording.sensor.unit, logger));
    for (const SimulatedMuscle& muscle : recording.muscles) {
        writer.cell(heading(muscle.model.name, "mV", logger));
    }
    writer.end_row();
    if (logger.units_in_row) {
        writer.cell("s");
        writer.cell(recording.sensor.unit);
        for (std::size_t i = 0; i < recording.muscles.size(); ++i) {
            writer.cell("mV");
        }
        writer.end_row();
    }
}

}  // namespace

std::string recording_text(const SimulatedRecording& recording) {
    const LoggerModel& logger = recording.logger;
    Writer writer(logger);
    for (const std::string& line : logger.preamble) {
        writer.cell(line);
        writer.end_row();
    }
    write_headings(writer, recording);
    const int time_decimals = logger.jitter_ms > 0.0 ? 6 : std::max(3, decimals_for(1.0 / logger.rate.value()));
    const int decimals =
        logger.decimals.value_or(recording.sensor.resolution > 0.0 ? decimals_for(recording.sensor.resolution) : 6);
    for (std::size_t i = 0; i < recording.time_s.size(); ++i) {
        writer.number(recording.time_s[i], time_decimals);
        writer.number(recording.reading[i], decimals);
        for (const SimulatedMuscle& muscle : recording.muscles) {
            writer.number(muscle.mv[i], 4);
        }
        writer.end_row();
    }
    return writer.take();
}

std::string truth_file(const std::string& recording_file) {
    const std::size_t dot = recording_file.find_last_of("./\\");
    const bool has_extension = dot != std::string::npos && dot > 0 && recording_file[dot] == '.';
    return (has_extension ? recording_file.substr(0, dot) : recording_file) + ".truth.json";
}

std::string manifest_text(const std::vector<PlannedRecording>& recordings) {
    std::string text = "file,participant,side,joint,motion,trial\n";
    for (const PlannedRecording& recording : recordings) {
        text += recording.file + "," + recording.participant + "," + std::string(name_of(recording.side)) + "," +
                recording.motion->joint + "," + recording.motion->motion + "," + std::to_string(recording.trial) + "\n";
    }
    return text;
}

}  // namespace jointrom
