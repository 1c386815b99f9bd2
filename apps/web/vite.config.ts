import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { keepClosures } from "./keep-closures.ts";

/** All of this project's own code. */
const isOurs = (id: string): boolean => /\/(packages|apps)\/[^?]*\.tsx?$/.test(id) && !id.includes("node_modules");

export default defineConfig({
  // Any address: the app may lie in a folder of a station's own server.
  base: "./",
  plugins: [
    react(),
    keepClosures(isOurs),
    VitePWA({
      registerType: "prompt",
      injectRegister: null,
      includeAssets: ["icon.svg"],
      workbox: { globPatterns: ["**/*.{js,css,html,svg,woff2,txt}"], cleanupOutdatedCaches: true },
      manifest: {
        name: "Gantline",
        short_name: "Gantline",
        description: "Plan rope work over an aerial ladder used as a high directional.",
        display: "standalone",
        start_url: "./",
        background_color: "#faf6ea",
        theme_color: "#faf6ea",
        icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
    }),
  ],
  worker: { plugins: () => [keepClosures(isOurs)] },
  build: { target: "es2022", sourcemap: false },
});
