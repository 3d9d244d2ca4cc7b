#include <support/xml.hpp>

#include <algorithm>
#include <set>
#include <vector>

namespace jointrom::test {
namespace {

class XmlReader {
  public:
    explicit XmlReader(std::string_view text) : text_(text) {}

    std::string fault() {
        while (fault_.empty() && at_ < text_.size()) {
            if (text_[at_] == '<') {
                read_tag();
            } else {
                read_text(text_.substr(at_, text_.find('<', at_) - at_));
            }
        }
        expect(open_.empty(), "an element is not closed");
        expect(roots_ == 1, "there is not one root");
        return fault_;
    }

  private:
    void expect(bool holds, std::string_view what) {
        if (!holds && fault_.empty()) {
            fault_ = std::string(what) + " at " + std::to_string(at_) + ": " + std::string(text_.substr(at_, 40));
        }
    }

    void read_text(std::string_view piece) {
        expect(!open_.empty() || piece.find_first_not_of(" \n") == std::string_view::npos, "text outside the root");
        check_entities(piece);
        at_ += piece.size();
    }

    void check_entities(std::string_view piece) {
        static constexpr std::string_view known[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&apos;", "&#"};
        for (std::size_t i = piece.find('&'); i != std::string_view::npos; i = piece.find('&', i + 1)) {
            expect(std::ranges::any_of(known, [&](auto name) { return piece.substr(i).starts_with(name); }),
                   "a bare ampersand");
        }
        expect(std::ranges::none_of(piece, [](char c) { return c >= '\0' && c < ' ' && c != '\n' && c != '\t'; }),
               "a control character");
    }

    void read_tag() {
        const std::size_t end = text_.find('>', at_);
        expect(end != std::string_view::npos, "a tag without end");
        std::string_view tag = text_.substr(at_ + 1, end - at_ - 1);
        if (tag.starts_with('/')) {
            expect(!open_.empty() && open_.back() == tag.substr(1), "the wrong end tag");
            open_.resize(open_.empty() ? 0 : open_.size() - 1);
        } else {
            const bool is_empty = tag.ends_with('/');
            tag.remove_suffix(is_empty ? 1 : 0);
            const std::size_t name_end = std::min(tag.find_first_of(" \n"), tag.size());
            roots_ += open_.empty() ? 1 : 0;
            read_attributes(tag.substr(name_end));
            if (!is_empty) {
                open_.push_back(tag.substr(0, name_end));
            }
        }
        at_ = end == std::string_view::npos ? text_.size() : end + 1;
    }

    void read_attributes(std::string_view rest) {
        std::set<std::string_view> names;
        while (fault_.empty()) {
            rest.remove_prefix(std::min(rest.find_first_not_of(" \n"), rest.size()));
            if (rest.empty()) {
                return;
            }
            const std::size_t equals = rest.find("=\"");
            const std::size_t close = rest.find('"', equals == std::string_view::npos ? equals : equals + 2);
            expect(close != std::string_view::npos, "an attribute without quotes");
            if (!fault_.empty()) {
                return;
            }
            const std::string_view name = rest.substr(0, equals);
            const std::string_view value = rest.substr(equals + 2, close - equals - 2);
            expect(names.insert(name).second, "an attribute twice");
            expect(name != "id" || ids_.insert(value).second, "an id twice");
            expect(value.find('<') == std::string_view::npos, "markup in an attribute");
            check_entities(value);
            rest.remove_prefix(close + 1);
        }
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::string fault_;
    std::vector<std::string_view> open_;
    std::set<std::string_view> ids_;
    int roots_ = 0;
};

}  // namespace

std::string xml_fault(std::string_view text) {
    return XmlReader(text).fault();
}

}  // namespace jointrom::test
