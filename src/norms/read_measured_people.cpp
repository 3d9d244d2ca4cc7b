#include <jointrom/norms/measured_person.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/table/record_reader.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double oldest_years = 120.0;

using Column = std::optional<std::size_t>;

struct ExtentColumns {
    MotionPart part;
    Column value, u, u95;
};

class PeopleReader {
  public:
    PeopleReader(RecordReader& reader, const PersonDefaults& defaults)
        : reader_(reader), defaults_(defaults), id_(reader.find_column("id")), file_(reader.find_column("file")),
          participant_(reader.find_column("participant")), side_(reader.find_column("side")),
          joint_(reader.column("joint")), motion_(reader.column("motion")), condition_(reader.find_column("condition")),
          age_(reader.find_column("age_years")), sex_(reader.find_column("sex")),
          status_(reader.find_column("status")) {
        for (const auto& [part, name] :
             {std::pair{MotionPart::positive, "positive"}, std::pair{MotionPart::negative, "negative"},
              std::pair{MotionPart::arc, "arc"}}) {
            const std::string stem(name);
            if (const Column value = reader.find_column(stem + "_deg")) {
                extents_.push_back(
                    {part, value, reader.find_column(stem + "_u_deg"), reader.find_column(stem + "_u95_deg")});
            }
        }
        if (extents_.empty()) {
            throw Failure(FailureKind::unreadable_data, "results-column-missing",
                          "there is no column positive_deg, negative_deg or arc_deg",
                          "Give a table that `batch` wrote, or name the measured angles so.", reader.place(0));
        }
    }

    MeasuredPeople read() {
        MeasuredPeople result;
        while (reader_.next()) {
            ++result.rows;
            if (const std::string status(text(status_)); status_ && status != "done") {
                result.findings.emplace_back("results-row-skipped",
                                             label() + ": its status is '" + status + "', not done",
                                             reader_.place(*status_));
                continue;
            }
            MeasuredPerson person = measured_person();
            if (person.extents.empty()) {
                result.findings.emplace_back("results-row-skipped", label() + ": it holds no angle",
                                             reader_.place(*extents_.front().value));
                continue;
            }
            result.people.push_back(std::move(person));
        }
        if (result.rows == 0) {
            throw Failure(FailureKind::unreadable_data, "results-empty", "the table has headings but no row",
                          "Give a table with a row for each recording.");
        }
        return result;
    }

  private:
    [[nodiscard]] std::string_view text(Column column) const {
        return column ? reader_.text(*column) : std::string_view();
    }
    [[nodiscard]] double number(Column column) const {
        return column ? reader_.number(*column) : std::numeric_limits<double>::quiet_NaN();
    }

    [[nodiscard]] std::string label() const {
        for (const Column column : {id_, file_, participant_}) {
            if (!text(column).empty()) {
                return std::string(text(column));
            }
        }
        return "line " + std::to_string(reader_.line());
    }

    /// What `meaning` makes of a cell; what it refuses is refused with the cell's place.
    template <typename Meaning>
    auto understood(std::size_t column, Meaning meaning) const {
        try {
            return meaning();
        } catch (const Failure& failure) {
            throw Failure(FailureKind::unreadable_data, "results-cell", failure.what(), failure.advice(),
                          reader_.place(column));
        }
    }

    [[nodiscard]] MeasuredPerson measured_person() const {
        MeasuredPerson person;
        person.label = label();
        person.participant = text(participant_);
        person.condition = text(condition_);
        if (text(joint_).empty()) {
            throw Failure(FailureKind::unreadable_data, "results-cell", "the joint is missing",
                          "Name the joint in each row, e.g. elbow.", reader_.place(joint_));
        }
        understood(joint_, [&] { return &joint_motion(text(joint_)); });
        person.motion = understood(motion_, [&] { return &joint_motion(text(joint_), text(motion_)); });
        if (!text(side_).empty()) {
            person.side = understood(*side_, [&] { return side_named(text(side_)); });
        }
        person.sex = defaults_.sex;
        if (!text(sex_).empty()) {
            person.sex = understood(*sex_, [&] { return sex_named(text(sex_)); });
        }
        person.age_years = defaults_.age_years;
        if (const double age = number(age_); !std::isnan(age)) {
            if (!(age >= 0.0 && age <= oldest_years)) {
                throw Failure(FailureKind::unreadable_data, "results-cell",
                              "nobody is " + shortest_text(age) + " years old", "Give an age from 0 to 120 years.",
                              reader_.place(*age_));
            }
            person.age_years = age;
        }
        person.mode = find_mode_in(text(condition_));
        person.mode = person.mode ? person.mode : defaults_.mode;
        for (const ExtentColumns& columns : extents_) {
            add_extent(columns, person);
        }
        return person;
    }

    void add_extent(const ExtentColumns& columns, MeasuredPerson& person) const {
        const Degrees angle(number(columns.value));
        if (!angle.is_set()) {
            return;
        }
        const double u_deg = number(columns.u);
        if (u_deg < 0.0) {
            throw Failure(FailureKind::unreadable_data, "results-cell", "a standard uncertainty below 0 deg",
                          "Give the standard uncertainty, or leave the cell empty.", reader_.place(*columns.u));
        }
        MeasuredExtent measured{.part = columns.part,
                                .extent =
                                    columns.part == MotionPart::arc ? angle : extent_of_angle(angle, columns.part),
                                .budget = stated_budget(u_deg, number(columns.u95))};
        if (!measured.has_uncertainty() && defaults_.assume_usual_error) {
            assume_usual_error(*person.motion, measured);
        }
        understood(*columns.value, [&] {
            check_plausible(*person.motion, measured);
            return true;
        });
        person.extents.push_back(std::move(measured));
    }

    RecordReader& reader_;
    const PersonDefaults& defaults_;
    Column id_, file_, participant_, side_;
    std::size_t joint_, motion_;
    Column condition_, age_, sex_, status_;
    std::vector<ExtentColumns> extents_;
};

}  // namespace

MeasuredPeople read_measured_people(const std::filesystem::path& path, const PersonDefaults& defaults) {
    RecordReader reader(path);
    return PeopleReader(reader, defaults).read();
}

bool holds_measured_people(const std::filesystem::path& path) {
    try {
        const RecordReader reader(path);
        const auto has = [&](std::string_view name) { return reader.find_column(name).has_value(); };
        return has("joint") && has("motion") && (has("positive_deg") || has("negative_deg") || has("arc_deg"));
    } catch (const Failure&) {
        return false;
    }
}

MeasuredPeople read_measured_people(ByteSource& source, const std::string& name, const PersonDefaults& defaults) {
    RecordReader reader(source, name);
    return PeopleReader(reader, defaults).read();
}

}  // namespace jointrom
