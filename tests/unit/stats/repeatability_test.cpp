#include <jointrom/stats/repeatability.hpp>

#include "stats_reference.hpp"

#include <jointrom/core/failure.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

ReplicatedTable two_goniometers() {
    ReplicatedTable table{.devices = 2, .repeats = 3, .values = {}};
    std::vector<std::vector<double>> columns;
    for (const char* heading : {"U1", "U2", "U3", "L1", "L2", "L3"}) {
        columns.push_back(reference_column("reference/stats/goniometer_29x6.csv", heading));
    }
    for (std::size_t subject = 0; subject < 29; ++subject) {
        for (const auto& column : columns) {
            table.values.push_back(column[subject]);
        }
    }
    return table;
}

std::string code_of(const ReplicatedTable& table) {
    try {
        (void)repeatability(table);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

}  // namespace

// Eliasziw et al. 1994: 29 subjects, manual and electronic goniometer, three readings each. Published: inter-device
// .945, intra-device .984, SEM 0.93 and 1.73 deg; further digits: R package irr, relInterIntra().
TEST_CASE("two goniometers on 29 knees have the published reliabilities", "[stats][repeatability]") {
    const auto expected = reference_json("reference/stats/agreement.json")["goniometer"];
    const auto near = [&](const char* key) { return WithinRel(expected[key].get<double>(), 1e-9); };
    const Repeatability found = repeatability(two_goniometers());
    CHECK(found.subjects == 29);
    CHECK_THAT(found.ms_subject, WithinRel(expected["ms"]["subject"].get<double>(), 1e-9));
    CHECK_THAT(found.ms_device, WithinRel(expected["ms"]["rater"].get<double>(), 1e-9));
    CHECK_THAT(found.ms_interaction, WithinRel(expected["ms"]["interaction"].get<double>(), 1e-9));
    CHECK_THAT(found.ms_error, WithinRel(expected["ms"]["error"].get<double>(), 1e-9));
    CHECK_THAT(found.inter_random, near("inter_random"));
    CHECK_THAT(found.intra_random, near("intra_random"));
    CHECK_THAT(found.inter_fixed, near("inter_fixed"));
    CHECK_THAT(found.intra_fixed, near("intra_fixed"));
    CHECK_THAT(found.sem_intra, near("sem_intra"));
    CHECK_THAT(found.sem_inter_random, near("sem_inter_random"));
    CHECK_THAT(found.sem_inter_fixed, near("sem_inter_fixed"));
    CHECK_THAT(found.by_device[0].intra, near("intra_random_manual"));
    CHECK_THAT(found.by_device[1].intra, near("intra_random_electronic"));
    CHECK_THAT(found.by_device[0].sem, near("sem_intra_manual"));
    CHECK_THAT(found.by_device[1].sem, near("sem_intra_electronic"));
    CHECK_THAT(found.by_device[0].mean - found.by_device[1].mean,
               WithinRel(expected["bland_altman_of_means"]["bias"].get<double>(), 1e-9));
    CHECK(found.sem_intra_ci.low < found.sem_intra);
    CHECK(found.sem_intra_ci.high > found.sem_intra);
}

TEST_CASE("the model of several devices needs two of everything", "[stats][repeatability]") {
    CHECK(code_of({}) == "too-few-subjects");
    CHECK(code_of({.devices = 2, .repeats = 2, .values = {1, 2, 3, 4}}) == "too-few-subjects");
    CHECK(code_of({.devices = 1, .repeats = 2, .values = {1, 2, 3, 4}}) == "too-few-devices");
    CHECK(code_of({.devices = 2, .repeats = 1, .values = {1, 2, 3, 4}}) == "too-few-repeats");
    CHECK(code_of({.devices = 2, .repeats = 2, .values = {1, 2, 3, 4, 5, 6, 7, missing}}) == "missing-cell");
}

TEST_CASE("devices that repeat exactly but differ have no error within", "[stats][repeatability]") {
    const Repeatability found =
        repeatability({.devices = 2, .repeats = 2, .values = {10, 10, 12, 12, 30, 30, 32, 32, 50, 50, 52, 52}});
    CHECK(found.sem_intra == 0.0);
    CHECK(found.intra_random == 1.0);
    CHECK(found.inter_random < 1.0);
    CHECK_THAT(found.sem_inter_random, WithinRel(std::sqrt(2.0), 1e-12));  // variance of 10 and 12
}
