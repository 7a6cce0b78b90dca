// A file whose text is carried by the program; the build makes lists of them (core/embed.cmake).
#pragma once

namespace casebound {

struct EmbeddedFile {
    const char* path;  // in its folder; null closes a list
    const char* text;
};

}  // namespace casebound
