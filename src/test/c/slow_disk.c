/*
 * A disk so slow that a process can be killed in the middle of what it does there: preloaded, it
 * waits before content is brought to the disk, before a file takes its place, and after.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <stdio.h>
#include <time.h>

static void wait_ms(long ms) {
  struct timespec t = {ms / 1000, ms % 1000 * 1000000};
  nanosleep(&t, NULL);
}

int fsync(int file) {
  static int (*real)(int);
  if (!real) real = (int (*)(int))dlsym(RTLD_NEXT, "fsync");
  wait_ms(150);
  return real(file);
}

int rename(const char *from, const char *to) {
  static int (*real)(const char *, const char *);
  if (!real) real = (int (*)(const char *, const char *))dlsym(RTLD_NEXT, "rename");
  wait_ms(150);
  int result = real(from, to);
  wait_ms(150);
  return result;
}
