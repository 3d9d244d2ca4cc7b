#include <jointrom/batch/pseudonyms.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <fstream>

#include <sys/stat.h>

using namespace jointrom;

TEST_CASE("codes are random, kept in a key that its owner alone can read", "[batch][pseudonyms]") {
    const test::ScratchFolder folder;
    const auto key = folder.path() / "key.csv";
    const Pseudonyms first(key, {"Ada Lind", "Bo", "", "=1+1", "-x, y"}, {"Ada Lind"});
    struct stat status = {};
    REQUIRE(::stat(key.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600U);
    CHECK(first.participant("Ada Lind").size() == 8);
    CHECK(first.participant("Ada Lind") != first.participant("Bo"));
    CHECK(first.rater("Ada Lind") != first.participant("Ada Lind"));
    CHECK(first.participant("").empty());
    CHECK(first.secret().size() == 64);

    const std::string before = read_whole_file(key, "key");
    const Pseudonyms again(key, {"Bo", "Ada Lind", "=1+1", "-x, y"}, {});
    CHECK(read_whole_file(key, "key") == before);
    CHECK(again.participant("Ada Lind") == first.participant("Ada Lind"));
    CHECK(again.participant("-x, y") == first.participant("-x, y"));
    CHECK(again.secret() == first.secret());
    const Pseudonyms more(key, {"Cy"}, {});
    CHECK(read_whole_file(key, "key").starts_with(before));

    const Pseudonyms other(folder.path() / "other.csv", {"Ada Lind"}, {});
    CHECK(other.participant("Ada Lind") != first.participant("Ada Lind"));
    CHECK(other.secret() != first.secret());
}

TEST_CASE("a key that is no key, or that others can read, is refused", "[batch][pseudonyms]") {
    const test::ScratchFolder folder;
    const auto code_of = [&](const std::string& text, unsigned mode) {
        const auto key = folder.path() / "key.csv";
        std::ofstream(key) << text;
        ::chmod(key.c_str(), mode);
        try {
            (void)Pseudonyms(key, {"Ada"}, {});
        } catch (const Failure& failure) {
            return failure.code();
        }
        return std::string("none");
    };
    CHECK(code_of("kind,name,code\nsecret,,00\n", 0644) == "key-readable");
    CHECK(code_of("kind,name,code\nparticipant,Ada,P-1\n", 0600) == "key-invalid");
    CHECK(code_of("kind,name,code\nsecret,,00\nparticipant,Ada,P-1\nparticipant,Bo,P-1\n", 0600) == "key-invalid");
    CHECK(code_of("time,angle\n0,1\n", 0600) == "no-such-column");
    CHECK(code_of("kind,name,code\nsecret,,00\n", 0600) == "none");
    CHECK_THROWS_AS(Pseudonyms(folder.path() / "none" / "key.csv", {"Ada"}, {}), Failure);
}

TEST_CASE("names and quoted texts give way to dots", "[batch][pseudonyms]") {
    const auto names = name_and_words("Ada van Lind");
    CHECK(names == std::vector<std::string>{"Ada van Lind", "Ada", "van", "Lind"});
    CHECK(without_names("read ada VAN lind's file", names) == "read ...'s file");
    CHECK(without_names("the adapter of LIND2 has an advantage", names) == "the adapter of ...2 has an advantage");
    CHECK(without_names("the sensor's zero; joint's end", names) == "the sensor's zero; joint's end");
    CHECK(without_names("column 'Knee of Bo' was taken", {}) == "column '...' was taken");
    CHECK(without_names("the line \"Subject: Bo\", 100 Hz", {}) == "the line \"...\", 100 Hz");
    CHECK(without_names("'it's Bo's'", {}) == "'...'");
    CHECK(without_names("'open", {}) == "'open");
    CHECK(without_names("", {""}).empty());
}
