#pragma once

#include "papers/html/markup.hpp"

/// The pages of the log are made of the same markup as papers that are read on a screen.
namespace gallipot::web {

using html::Attribute;
using html::Attributes;
using html::element;
using html::Html;
using html::lone;
using html::Name;
using html::page_markup;

}  // namespace gallipot::web
