import { LOAD_MODELS, loadModel, type LoadModel } from "../../proposals";
import { knownName } from "../results/names";

/** Statistics of dead and live loads. */
export type LoadModelId = "nowak-2003" | "ellingwood-1980";

/** The load model of an id. @throws UnknownNameError naming the nearest id */
export function loadsNamed(id: LoadModelId): LoadModel {
  const ids = LOAD_MODELS.map((one) => one.id);
  return loadModel(knownName<string>("load model", id, ids));
}
