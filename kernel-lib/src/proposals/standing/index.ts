export { groupReliability, type GroupReliability, type GroupReliabilitySettings } from "./group-reliability";
export { groupStandings, type GroupStanding, type Standing, type StandingSettings, type StandingSide } from "./group-standing";
