// Vector instructions stand in lane_drives.cpp's object alone: elsewhere clang 14 makes vectors of neighbouring numbers, and wrong
// answers of them. Each object names the features its instructions need (the section target_features of the tool conventions).
//   node simd.mjs BUILD_FOLDER      exit 77: the desk is not built
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const [folder] = process.argv.slice(2);
const objects = (existsSync(folder) ? readdirSync(folder, { recursive: true }) : []).filter((name) => name.endsWith(".o"));
if (objects.length === 0) {
  console.log(`${folder} holds no objects (.ci/desk makes them)`);
  process.exit(77);
}
const withVectors = objects.filter((name) => {
  const bytes = readFileSync(join(folder, name));
  return WebAssembly.Module.customSections(new WebAssembly.Module(bytes), "target_features").some((section) =>
    Buffer.from(section).includes("+\x07simd128"));
});
const wrong = withVectors.filter((name) => !name.includes("lane_drives"));
for (const name of wrong) console.log(`${name} holds vector instructions`);
const lanes = withVectors.length - wrong.length;
console.log(`${objects.length} objects; ${lanes} of lanes and ${wrong.length} others with vector instructions`);
process.exit(lanes === 1 && wrong.length === 0 ? 0 : 1);
