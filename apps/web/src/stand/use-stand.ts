import { useStore } from "zustand";
import { useBench } from "../state/desk-context.tsx";
import { type StandDesk, type StandDeskStore, standDeskOf } from "./stand-desk.ts";

export const useStandActions = (): StandDeskStore => standDeskOf(useBench());

export const useStand = <T>(select: (desk: StandDesk) => T): T => useStore(useStandActions().store, select);

/** What was found for the vehicle whose map is shown; `null` before anything is. */
export const useShownSearch = () =>
  useStand(({ searches, shownDeviceId }) => searches.find(({ device }) => device.id === shownDeviceId) ?? null);
