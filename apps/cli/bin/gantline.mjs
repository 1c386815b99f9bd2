#!/usr/bin/env node
import "../dist/gantline.mjs";
