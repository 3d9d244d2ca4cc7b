#pragma once

/// \file
/// Codes instead of names, and the key file that tells which is whose.

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// The key: a CSV file with the columns kind, name and code. It only ever grows, and its owner alone can read it.
class Pseudonyms {
  public:
    /// Reads the key file, or makes one, and adds a random code for each name that has none. Safe when several programs
    /// do it at once.
    ///
    /// \throws Failure usage "key-readable" when others may read the file; cannot_create, cannot_write; unreadable_data
    ///   "key-invalid" when it is no key file
    Pseudonyms(const std::filesystem::path& key_file, const std::vector<std::string>& participants,
               const std::vector<std::string>& raters);

    /// The code of a name that was given to the constructor; empty for an empty name.
    [[nodiscard]] std::string participant(const std::string& name) const;
    [[nodiscard]] std::string rater(const std::string& name) const;

    /// Random text of the key, so that what is derived from a name with it cannot be guessed without it.
    [[nodiscard]] const std::string& secret() const noexcept { return secret_; }

  private:
    using Key = std::pair<std::string, std::string>;  ///< kind and name
    void read(const std::filesystem::path& key_file);
    [[nodiscard]] std::string add(const std::string& kind, const std::string& name);

    std::map<Key, std::string> codes_;
    std::map<std::string, Key> names_;  ///< by code
    std::string secret_;
};

/// A text with every one of the names in it replaced by "...", whatever their capitals, and all that stands in quotes,
/// which may come from the recording.
///
/// Method: a name of up to three letters counts as a whole word only.
[[nodiscard]] std::string without_names(std::string_view text, const std::vector<std::string>& names);

/// A name and its words of three letters or more.
[[nodiscard]] std::vector<std::string> name_and_words(std::string_view name);

}  // namespace jointrom
