#include "papers/html/markup.hpp"

#include <stdexcept>

#include "papers/text/direction.hpp"

namespace gallipot::html {
namespace {

void escape(std::string& out, std::string_view text) {
    for (const char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += c;
        }
    }
}

void open(std::string& out, Name tag, const Attributes& attributes) {
    out += '<';
    out += tag.text();
    for (const Attribute& attribute : attributes) {
        out += ' ';
        out += attribute.name.text();
        out += "=\"";
        escape(out, attribute.value);
        out += '"';
    }
    out += '>';
}

}  // namespace

Html::Html(std::string_view text) {
    escape(markup_, text);
}
Html::Html(const std::string& text) : Html(std::string_view(text)) {}
Html::Html(const char* text) : Html(std::string_view(text)) {}
Html::Html(const text::StyledText& runs) {
    for (const text::Run& run : runs) {
        if (run.bold)
            *this += element("b", {run.text});
        else
            escape(markup_, run.text);
    }
}

Html& Html::operator+=(const Html& more) {
    markup_ += more.markup_;
    return *this;
}

Html element(Name tag, const Attributes& attributes, std::initializer_list<Html> content) {
    Html html;
    open(html.markup_, tag, attributes);
    for (const Html& piece : content) html += piece;
    html.markup_ += "</";
    html.markup_ += tag.text();
    html.markup_ += '>';
    return html;
}

Html element(Name tag, std::initializer_list<Html> content) {
    return element(tag, Attributes{}, content);
}

Html lone(Name tag, const Attributes& attributes) {
    Html html;
    open(html.markup_, tag, attributes);
    // In a drawing a tag must be closed; in HTML's own void tags the stroke is ignored.
    html.markup_.insert(html.markup_.size() - 1, 1, '/');
    return html;
}

std::string page_markup(const std::string& language, const std::string& style, const Html& head,
                        const Html& body, const std::string& script) {
    if (style.find("</") != std::string::npos || script.find("</") != std::string::npos)
        throw std::invalid_argument("a style sheet or script may not hold \"</\"");
    std::string out = "<!DOCTYPE html>\n<html lang=\"";
    escape(out, language);
    out += text::runs_right_to_left(language) ? "\" dir=\"rtl\"" : "\"";
    out += "><head><meta charset=\"utf-8\">" + head.markup_ + "<style>" + style +
           "</style></head><body>" + body.markup_;
    if (!script.empty()) out += "<script>" + script + "</script>";
    out += "</body></html>\n";
    return out;
}

}  // namespace gallipot::html
