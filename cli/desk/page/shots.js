import { h } from "./dom.js"; export const makeShots = () => h('p');
