#include <table/text_blocks.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <string>

using namespace jointrom;

namespace {

/// Gives at most `piece` bytes at a time, as a pipe does.
class SlowSource final : public ByteSource {
  public:
    SlowSource(std::string text, std::size_t piece) : text_(std::move(text)), piece_(piece) {}

    std::size_t read(std::span<char> buffer) override {
        const std::size_t count = std::min({piece_, buffer.size(), text_.size() - at_});
        std::copy_n(text_.data() + at_, count, buffer.data());
        at_ += count;
        return count;
    }

  private:
    std::string text_;
    std::size_t piece_;
    std::size_t at_ = 0;
};

std::string whole(TextBlocks& blocks) {
    std::string text;
    for (auto block = blocks.next(); !block.empty(); block = blocks.next()) {
        REQUIRE(block.back() == '\n');
        text += block;
    }
    return text;
}

std::string many_lines(std::size_t bytes) {
    std::string text;
    for (std::size_t i = 0; text.size() < bytes; ++i) {
        text += std::to_string(i * 7919) + "," + std::to_string(i) + "\n";
    }
    return text;
}

std::string code_of(const std::string& text) {
    SlowSource source(text, 1000);
    try {
        TextBlocks blocks(source, "x.csv");
        static_cast<void>(whole(blocks));
    } catch (const Failure& failure) {
        return failure.code();
    }
    return {};
}

}  // namespace

TEST_CASE("a long text comes out whole in blocks of whole lines", "[table][text_blocks]") {
    const std::string text = many_lines(1'000'000);
    for (const std::size_t piece : {std::size_t{997}, std::size_t{65536}, std::size_t{5'000'000}}) {
        SlowSource source(text, piece);
        TextBlocks blocks(source, "x.csv");
        CHECK(whole(blocks) == text);
        CHECK_FALSE(blocks.ends_in_a_line());
    }
}

TEST_CASE("a last line without an end gets one, and it is said so", "[table][text_blocks]") {
    SlowSource source("1,2\n3,4", 3);
    TextBlocks blocks(source, "x.csv");
    CHECK(whole(blocks) == "1,2\n3,4\n");
    CHECK(blocks.ends_in_a_line());
}

TEST_CASE("a line longer than a block is still one line", "[table][text_blocks]") {
    const std::string text = "1,2\n" + std::string(700'000, '7') + "\n3,4\n";
    SlowSource source(text, 4096);
    TextBlocks blocks(source, "x.csv");
    CHECK(whole(blocks) == text);
}

TEST_CASE("UTF-16 and lines that end in carriage returns are converted block by block", "[table][text_blocks]") {
    const std::string text = many_lines(600'000);
    std::string wide = "\xFF\xFE";
    for (const char c : text) {
        wide += c == '\n' ? '\r' : c;
        wide += '\0';
    }
    SlowSource source(wide, 1001);
    TextBlocks blocks(source, "x.txt");
    CHECK(blocks.encoding() == Encoding::utf16_little_endian);
    CHECK(whole(blocks) == text);
}

TEST_CASE("what cannot be a table is refused before it is read", "[table][text_blocks]") {
    CHECK(code_of("") == "file-empty");
    CHECK(code_of("\n \r\n\t\n") == "file-empty");
    CHECK(code_of(std::string(3000, '\0')) == "file-empty");
    CHECK(code_of(std::string("\x01\x02\x03\x04\x05") + "1,2\n") == "not-text");
    CHECK(code_of("1,2\n" + std::string(20'000'000, '3')) == "line-too-long");
}
