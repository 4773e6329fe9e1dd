#pragma once

// What other layers need of this one.
#include "keys/link.hpp"
#include "keys/secret.hpp"
