#include <support/scratch_folder.hpp>

#include <stdexcept>
#include <string>

#include <stdlib.h>

namespace jointrom::test {

ScratchFolder::ScratchFolder() {
    const std::string letters_to_choose(6, 'X');  // as mkdtemp wants them
    std::string name = (std::filesystem::temp_directory_path() / ("jointrom-test-" + letters_to_choose)).string();
    if (::mkdtemp(name.data()) == nullptr) {
        throw std::runtime_error("cannot make a folder for a test");
    }
    path_ = name;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

}  // namespace jointrom::test
