// How far a long computation is, on the error stream: only on a terminal, only after half a second, never when quiet.
#pragma once

#include <chrono>
#include <cstddef>
#include <mutex>
#include <string>

#include "commands.hpp"

namespace loftwright::cli {

class Progress {
 public:
  // "cells": what is counted.
  Progress(const Session& session, std::string what, std::size_t total);
  ~Progress();  // takes its line away
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void at(std::size_t done);  // from any thread

 private:
  using Clock = std::chrono::steady_clock;
  const Session& session_;
  std::string what_;
  std::size_t total_;
  bool shows_;
  bool shown_ = false;
  std::mutex mutex_;
  Clock::time_point next_;
};

}  // namespace loftwright::cli
