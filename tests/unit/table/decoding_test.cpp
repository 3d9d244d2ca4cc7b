#include <table/decoding.hpp>

#include <support/catch.hpp>

#include <string>
#include <vector>

using namespace jointrom;
using namespace std::string_view_literals;

namespace {

std::string decoded(std::string_view bytes, bool big_endian, std::size_t piece) {
    Utf16Decoder decoder(big_endian);
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += piece) {
        const std::string_view part = bytes.substr(i, piece);
        std::vector<char> out(Utf16Decoder::needed(part.size()));
        text.append(out.data(), decoder.decode(part, out));
    }
    return text;
}

}  // namespace

TEST_CASE("a byte order mark or zero bytes tell the encoding", "[table][decoding]") {
    CHECK(guess_encoding("Time,Angle").encoding == Encoding::utf8);
    CHECK(guess_encoding("\xEF\xBB\xBFTime"sv).encoding == Encoding::utf8_with_mark);
    CHECK(guess_encoding("\xEF\xBB\xBFTime"sv).mark_bytes == 3);
    CHECK(guess_encoding("\xFF\xFET\0i\0"sv).encoding == Encoding::utf16_little_endian);
    CHECK(guess_encoding("\xFE\xFF\0T\0i"sv).encoding == Encoding::utf16_big_endian);
    CHECK(guess_encoding("1\0,\0002\0\n\0"sv).encoding == Encoding::utf16_little_endian);
    CHECK(guess_encoding("\0001\0,\0002\0\n"sv).encoding == Encoding::utf16_big_endian);
    CHECK(guess_encoding("").encoding == Encoding::utf8);
}

TEST_CASE("UTF-16 becomes UTF-8 whatever pieces it comes in", "[table][decoding]") {
    // "é°€😀a" with U+1F600 as a pair (Unicode 15, table 3-5).
    const auto little = "\xE9\x00\xB0\x00\xAC\x20\x3D\xD8\x00\xDE\x61\x00"sv;
    const auto big = "\x00\xE9\x00\xB0\x20\xAC\xD8\x3D\xDE\x00\x00\x61"sv;
    const std::string expected = "\xC3\xA9\xC2\xB0\xE2\x82\xAC\xF0\x9F\x98\x80"
                                 "a";
    for (const std::size_t piece : {1U, 2U, 3U, 5U, 100U}) {
        CAPTURE(piece);
        CHECK(decoded(little, false, piece) == expected);
        CHECK(decoded(big, true, piece) == expected);
    }
}

TEST_CASE("half a pair becomes the replacement character", "[table][decoding]") {
    CHECK(decoded("\x3D\xD8\x61\x00"sv, false, 4) == "\xEF\xBF\xBD"
                                                     "a");
    CHECK(decoded("\x00\xDE\x61\x00"sv, false, 4) == "\xEF\xBF\xBD"
                                                     "a");
}

TEST_CASE("text that is not UTF-8 is read as Windows-1252", "[table][decoding]") {
    CHECK(text_as_utf8("Winkel (\xB0)") == "Winkel (°)");
    CHECK(text_as_utf8("\x80 \x84Kn\xF6"
                       "chel\x93") == "€ „Knöchel“");
    CHECK(text_as_utf8("Winkel (°)") == "Winkel (°)");
}

TEST_CASE("UTF-8 is checked strictly", "[table][decoding]") {
    CHECK(is_utf8("Knöchel 😀"));
    // Overlong, surrogate, beyond U+10FFFF, cut off (Unicode 15, table 3-7).
    for (const auto bytes :
         {"\xC0\xAF"sv, "\xE0\x80\xAF"sv, "\xED\xA0\x80"sv, "\xF4\x90\x80\x80"sv, "\xE2\x82"sv, "\xFF"sv}) {
        CHECK_FALSE(is_utf8(bytes));
    }
}

TEST_CASE("files that are no text are named", "[table][decoding]") {
    CHECK(not_text_but("PK\x03\x04 and so on"sv) == "a compressed archive or a spreadsheet workbook");
    CHECK(not_text_but("%PDF-1.7"sv) == "a PDF document");
    CHECK(not_text_but("\x01\x02\x03\x04\x05\x06"sv) == "binary data");
    CHECK(not_text_but("1.5,2\t3\r\n"sv).empty());
}
