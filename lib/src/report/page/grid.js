"use strict";
// Reads the tables of drives that the page carries: whole numbers of a quantum at even nodes, packed as letters, and between
// the nodes a cubic through the four nearest each way. The same sums as page/drive_grid.cpp.

function numbersFrom(letters) {
  const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const value = new Map([...alphabet].map((letter, i) => [letter, i]));
  const out = [];
  let before = 0, rest = 0, place = 1;
  for (const letter of letters) {
    const digit = value.get(letter);
    rest += (digit % 32) * place;
    place *= 32;
    if (digit >= 32) continue;
    before += rest % 2 ? -(rest + 1) / 2 : rest / 2;
    out.push(before);
    rest = 0;
    place = 1;
  }
  return out;
}

function cubicWeights(axis, value) {
  const at = (value - axis.low) / axis.step;
  const first = Math.min(Math.max(Math.floor(at) - 1, 0), axis.count - 4);
  const q = at - first;
  const of = [0, 1, 2, 3].map((m) => {
    let w = 1;
    for (let n = 0; n < 4; n++) if (n !== m) w *= (q - n) / (m - n);
    return w;
  });
  return { first, of };
}

function tableReader(axes, table) {
  const numbers = numbersFrom(table.letters);
  return (point) => {
    const [x, y, z] = axes.map((axis, i) => cubicWeights(axis, point[i]));
    let sum = 0;
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        const start = ((x.first + i) * axes[1].count + y.first + j) * axes[2].count + z.first;
        let line = 0;
        for (let k = 0; k < 4; k++) line += z.of[k] * numbers[start + k];
        sum += x.of[i] * y.of[j] * line;
      }
    }
    return sum * table.quantum;
  };
}

// A function of [club speed m/s, attack deg, club loft deg] and a turf's id: the drive, keys with their units.
function gridReader(grid) {
  const flight = Object.entries(grid.flight).map(([key, table]) => [key, tableReader(grid.flight_axes, table)]);
  const run = Object.fromEntries(Object.entries(grid.run_m).map(([turf, table]) => [turf, tableReader(grid.run_axes, table)]));
  return (point, turf) => {
    const drive = Object.fromEntries(flight.map(([key, read]) => [key, read(point)]));
    drive.run_m = Math.max(0, run[turf](point));
    drive.total_m = drive.carry_m + drive.run_m;
    drive.rest_side_m = drive.side_m + drive.run_m * Math.sin((drive.heading_deg * Math.PI) / 180);
    drive.delivered_deg = point[2] + grid.delivered.added_deg + grid.delivered.follow * (point[1] - grid.now[1]);
    return drive;
  };
}
