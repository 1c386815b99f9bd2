/** `npm start`: install if needed, build the web app, serve it to this machine. Plain JavaScript, as it runs before anything is installed. */
import { buildWeb, hasWeb, webDist } from "./build-web.mjs";
import { ensureInstalled } from "./ensure-installed.mjs";
import { serveStatic } from "./serve-static.mjs";

const PORT = 4173;

await ensureInstalled();
if (!hasWeb()) {
  console.error("There is no web app in this checkout (apps/web/index.html is missing).");
  process.exit(1);
}
const status = await buildWeb();
if (status !== 0) {
  console.error("The web app could not be built: see the message above.");
  process.exit(status);
}
const { url } = await serveStatic(webDist, PORT);
console.log(`Gantline is at ${url} (stop with Ctrl+C)`);

// npm passes no signal on: when it is stopped, its shell goes, and this has to follow.
if (process.env.npm_lifecycle_event) {
  const shell = process.ppid;
  setInterval(() => process.ppid !== shell && process.exit(), 300);
}
