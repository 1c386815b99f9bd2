import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";

const TYPES = /** @type {Record<string, string>} */ ({
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".ico": "image/x-icon",
  ".webp": "image/webp",
  ".woff2": "font/woff2",
  ".ttf": "font/ttf",
  ".wasm": "application/wasm",
  ".txt": "text/plain; charset=utf-8",
  ".pdf": "application/pdf",
});

/** The page may load from its own address only. The UI library sets inline styles; drawings are saved through blobs. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "worker-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

/**
 * Serves the files of a folder at the loopback address, to this machine only.
 *
 * @param {string} folder
 * @param {number} firstPort the port to take, or the next free one above it; 0 takes any free port
 * @returns {Promise<{ url: string, close: () => Promise<void> }>}
 */
export async function serveStatic(folder, firstPort) {
  const server = createServer((request, response) => {
    answer(folder, request, response).catch(() => refuse(response, 500, "The file could not be read."));
  });
  const port = await listen(server, firstPort);
  return {
    url: `http://127.0.0.1:${port}/`,
    close: () =>
      new Promise((settle) => {
        server.close(() => settle());
        server.closeAllConnections();
      }),
  };
}

/**
 * @param {string} folder
 * @param {import("node:http").IncomingMessage} request
 * @param {import("node:http").ServerResponse} response
 */
async function answer(folder, request, response) {
  if (request.method !== "GET" && request.method !== "HEAD")
    return refuse(response, 405, "Only reading is possible here.");
  const path = fileAsked(folder, request.url ?? "/");
  const found = path === null ? null : await stat(path).catch(() => null);
  if (path === null || !found?.isFile()) return refuse(response, 404, "There is no such file.");
  response.writeHead(200, {
    "Content-Type": TYPES[extname(path).toLowerCase()] ?? "application/octet-stream",
    "Content-Length": found.size,
    "Cache-Control": "no-cache",
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
  });
  if (request.method === "HEAD") return void response.end();
  createReadStream(path)
    .on("error", () => response.destroy())
    .pipe(response);
}

/**
 * The file a request asks for; `null` where the address is malformed or leads out of the folder.
 *
 * @param {string} folder
 * @param {string} url
 */
function fileAsked(folder, url) {
  try {
    const asked = decodeURIComponent(url.split(/[?#]/, 1)[0] ?? "/");
    if (asked.includes("\0")) return null;
    const path = normalize(join(folder, asked.endsWith("/") ? `${asked}index.html` : asked));
    return path.startsWith(normalize(folder + sep)) ? path : null;
  } catch {
    return null;
  }
}

/**
 * @param {import("node:http").ServerResponse} response
 * @param {number} status
 * @param {string} sentence
 */
function refuse(response, status, sentence) {
  if (response.headersSent) return void response.destroy();
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8", "Cache-Control": "no-store" });
  response.end(`${sentence}\n`);
}

/**
 * @param {import("node:http").Server} server
 * @param {number} firstPort
 * @returns {Promise<number>}
 */
async function listen(server, firstPort) {
  const lastPort = firstPort + 50;
  for (let port = firstPort; ; port++) {
    try {
      await new Promise((settle, fail) => {
        server.once("error", fail);
        server.listen(port, "127.0.0.1", () => {
          server.off("error", fail);
          settle(undefined);
        });
      });
      const address = server.address();
      return typeof address === "object" && address ? address.port : port;
    } catch (error) {
      const taken = error instanceof Error && "code" in error && error.code === "EADDRINUSE";
      if (!taken || port >= lastPort) throw error;
    }
  }
}
