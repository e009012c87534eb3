#!/usr/bin/env node
import { mindSignals } from "../dist/signals.js";

mindSignals();
const { main } = await import("../dist/main.js");
await main(process.argv.slice(2));
