#!/usr/bin/env node
import { mindSignals } from "../dist/command/signals.js";

mindSignals();
const { main } = await import("../dist/command/main.js");
await main(process.argv.slice(2));
