# Writes OUT, a header with the commit this tree stands at, "" where there is no git. Run at each
# build; the file changes only when the commit does.
execute_process(COMMAND git -C ${SOURCE} describe --always --dirty --abbrev=9 --exclude=*
                OUTPUT_VARIABLE commit OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
set(text "#pragma once\n\nnamespace gallipot::cli {\n\ninline constexpr const char* commit = \"${commit}\";\n\n}  // namespace gallipot::cli\n")
set(old "")
if(EXISTS ${OUT})
  file(READ ${OUT} old)
endif()
if(NOT old STREQUAL text)
  file(WRITE ${OUT} "${text}")
endif()
