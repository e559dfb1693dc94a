# SPDX-License-Identifier: GPL-3.0-or-later
# The interface target that carries our own flags: linked PRIVATE by every target of ours, so that
# warnings are errors in our code and nowhere else.
add_library(latemile_warnings INTERFACE)
target_compile_options(latemile_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wold-style-cast -Wnon-virtual-dtor
    -Woverloaded-virtual -Werror)
if(LATEMILE_SANITIZE)
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
endif()

# latemile_test(NAME SOURCES... [LIBS ...]): one test program, run as one test.
function(latemile_test name)
    cmake_parse_arguments(T "" "" "SOURCES;LIBS" ${ARGN})
    add_executable(${name} ${T_SOURCES})
    target_link_libraries(${name} PRIVATE latemile_catch_main latemile_core latemile_warnings ${T_LIBS})
    add_test(NAME ${name} COMMAND ${name})
    set_tests_properties(${name} PROPERTIES TIMEOUT 280)
endfunction()
