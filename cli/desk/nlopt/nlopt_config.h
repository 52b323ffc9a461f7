/* What NLopt's own build would find out about the desk's compiler, as far as its sources ask. */
#pragma once

#define MAJOR_VERSION 2
#define MINOR_VERSION 7
#define BUGFIX_VERSION 1
#define HAVE_COPYSIGN
#define HAVE_FPCLASSIFY
#define HAVE_ISINF
#define HAVE_ISNAN
#define HAVE_STDINT_H
#define HAVE_TIME
#define HAVE_UINT32_T
#define SIZEOF_UNSIGNED_INT 4
#define SIZEOF_UNSIGNED_LONG 4
#define THREADLOCAL
