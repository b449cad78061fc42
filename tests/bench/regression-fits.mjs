// Least squares, a censored fit of 200 rows, a mixed model: median of several runs, peers beside
// them.
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";
const require = createRequire(import.meta.url);
const dist = process.env.KERNEL_LIB_DIST ?? "../../kernel-lib/dist";
const { leastSquares, mixedModel } = require(`${dist}/regression/index.js`);
const { fitCensored, characteristicCensored } = require(`${dist}/statistics/censoring/index.js`);

const weyl = (n, p) => Array.from({ length: n }, (_, i) => ((i + 1) * Math.sqrt(p)) % 1);
function median(run, times = 9) {
  for (let i = 0; i < 5; i += 1) run(); // warm
  const ms = Array.from({ length: times }, () => {
    const t = performance.now();
    run();
    return performance.now() - t;
  });
  return ms.sort((a, b) => a - b)[times >> 1];
}
const line = (name, ms, target, peer) =>
  console.log(`${name}: ${ms.toFixed(2)} ms (target ${target})${peer ? `; ${peer}` : ""}`);
function peer(program, args, label) {
  try {
    return `${label} ${execFileSync(program, args, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim()} ms`;
  } catch {
    return `${label} skipped: not installed`;
  }
}

const n = 200;
const ld = weyl(n, 5).map((u) => Math.log([10, 12, 16, 20, 24][Math.floor(5 * u)]));
const lf = weyl(n, 3).map((u) => Math.log(20 + 40 * u));
const y = weyl(n, 7).map((u, i) => 0.1 - 0.12 * ld[i] + 0.05 * lf[i] + 0.3 * (u - 0.5));
const fit = leastSquares({ y, columns: { ld, lf } });
const python = (body) => [
  "-c",
  `import os\nos.environ["OMP_NUM_THREADS"]="1"\nimport numpy as np, time\nw=lambda n,p:(lambda x:x-np.floor(x))(np.arange(1,n+1)*np.sqrt(p))\nn=200\nld=np.log(np.array([10,12,16,20,24.])[np.floor(5*w(n,5)).astype(int)]);lf=np.log(20+40*w(n,3))\nX=np.column_stack([np.ones(n),ld,lf]);y=0.1-0.12*ld+0.05*lf+0.3*(w(n,7)-.5)\n${body}\nts=[]\nfor _ in range(7):\n t=time.perf_counter();f();ts.append((time.perf_counter()-t)*1e3)\nprint(round(sorted(ts)[3],2))`,
];
line(
  "one least-squares fit, n 200, p 3",
  median(() => leastSquares({ y, columns: { ld, lf } }), 21),
  "none",
  peer(
    "/usr/bin/python3",
    python(
      "import statsmodels.api as sm\ndef f():\n r=sm.OLS(y,X).fit();return r.params,r.bse,r.pvalues,r.conf_int()",
    ),
    "statsmodels OLS",
  ),
);

const loads = weyl(n, 2).map((u, i) => 100 * Math.exp(0.15 * (u + weyl(n, 11)[i] - 1)));
const censored = weyl(n, 13).map((u) => u < 0.3);
for (const distribution of ["normal", "lognormal", "weibull"]) {
  line(
    `censored ${distribution} fit of 200 rows with profile intervals`,
    median(() => fitCensored({ values: loads, censored, distribution }), 21),
    "5 ms",
    peer(
      "/usr/bin/Rscript",
      [
        "-e",
        `suppressMessages(library(survival));w<-function(n,p)((1:n)*sqrt(p))%%1;n<-200;x<-100*exp(0.15*(w(n,2)+w(n,11)-1));d<-1*(w(n,13)>=0.3);ts<-sapply(1:15,function(i){t<-proc.time()[3];for(k in 1:10)survreg(Surv(x,d)~1,dist="${distribution === "normal" ? "gaussian" : distribution}");(proc.time()[3]-t)*100});cat(median(ts))`,
      ],
      "R survreg (no profile intervals)",
    ),
  );
}
line(
  "characteristic value under censoring, pivot bootstrap, n 20, B 2000",
  median(
    () =>
      characteristicCensored({
        values: loads.slice(0, 20),
        censored: censored.slice(0, 20),
        distribution: "lognormal",
      }),
    5,
  ),
  "none",
);
line(
  "mixed model with profile intervals, n 200, 12 studies",
  median(() => mixedModel({ y, columns: { ld, lf }, studies: y.map((_, i) => i % 12) }), 5),
  "none",
  peer(
    "/usr/bin/Rscript",
    [
      "-e",
      `suppressMessages(library(nlme));w<-function(n,p)((1:n)*sqrt(p))%%1;n<-200;ld<-log(c(10,12,16,20,24)[floor(5*w(n,5))+1]);lf<-log(20+40*w(n,3));y<-0.1-0.12*ld+0.05*lf+0.3*(w(n,7)-.5);g<-(0:(n-1))%%12;ts<-sapply(1:7,function(i){t<-proc.time()[3];lme(y~ld+lf,random=~1|g);(proc.time()[3]-t)*1e3});cat(median(ts))`,
    ],
    "R lme (no intervals)",
  ),
);
