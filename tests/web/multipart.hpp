#pragma once

#include <string>
#include <utility>
#include <vector>

namespace gallipot::tests {

inline const std::string boundary = "----WebKitFormBoundaryAaBbCc123";
inline const std::string multipart_type = "multipart/form-data; boundary=" + boundary;

/// A form as Chromium sends it (RFC 7578): fields, then files chosen in the field "photo".
inline std::string multipart(const std::vector<std::pair<std::string, std::string>>& fields,
                             const std::vector<std::string>& photos = {}) {
    std::string body;
    for (const auto& [name, value] : fields)
        body += "--" + boundary + "\r\nContent-Disposition: form-data; name=\"" + name +
                "\"\r\n\r\n" + value + "\r\n";
    for (const std::string& photo : photos)
        body += "--" + boundary +
                "\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"IMG 1.jpg\"\r\n"
                "Content-Type: image/jpeg\r\n\r\n" +
                photo + "\r\n";
    return body + "--" + boundary + "--\r\n";
}

}  // namespace gallipot::tests
