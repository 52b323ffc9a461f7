import { h } from "./dom.js"; export const makeTuning = () => h('p'); export const makeTable = () => h('p');
