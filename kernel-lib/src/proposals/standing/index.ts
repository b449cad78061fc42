export {
  groupStandings,
  type GroupStanding,
  type Standing,
  type StandingSettings,
  type StandingSide,
} from "./group-standing";
