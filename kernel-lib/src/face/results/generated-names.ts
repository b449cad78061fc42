// Written by `npm run derived` from the definitions of the codes; a test compares them.

/** Ids of the codes and models. */
export type CodeId =
  | "aci318-19"
  | "aci318-19m"
  | "aci440.1r-15"
  | "ccd-1995"
  | "ccd-1995-cube"
  | "en1992-4-2018"
  | "en1992-1-1-2004"
  | "en1992-1-1-2023"
  | "aci440.11-22"
  | "csa-s806-12"
  | "csa-s6-14"
  | "aashto-gfrp2-2018"
  | "jsce-1997"
  | "fib-mc2010"
  | "eota-tr069-2019"
  | "uniform-bond-1998"
  | "uniform-bond-2006"
  | "cone-bond-1993"
  | "combined-cone-bond"
  | "edge-shear-2005"
  | "pryout-1995"
  | "dowel-1986"
  | "wambeke-shield-2006"
  | "orangun-1977"
  | "aci408r-03";

/** Ids of the provisions, code/clause. */
export type ProvisionId =
  | "aci318-19/17.6.1.2"
  | "aci318-19/17.6.2"
  | "aci318-19/17.6.5"
  | "aci318-19/17.5.2.2"
  | "aci318-19/25.4.2"
  | "aci318-19/17.6.3.2.2a"
  | "aci318-19/17.6.3.2.2b"
  | "aci318-19/17.6.4"
  | "aci318-19/17.7.1.2"
  | "aci318-19/frp-transverse-shear"
  | "aci318-19/17.7.2"
  | "aci318-19/17.7.2.1(c)-edge2"
  | "aci318-19/17.7.2.1(c)-edge4"
  | "aci318-19/17.7.3"
  | "aci440.1r-15/10.1"
  | "aci440.1r-15/6.2"
  | "aci440.1r-15/creep-rupture"
  | "ccd-1995/tension"
  | "ccd-1995/shear"
  | "ccd-1995/side-face"
  | "en1992-4-2018/7.2.1.3"
  | "en1992-4-2018/7.2.1.4"
  | "en1992-4-2018/7.2.1.6"
  | "en1992-4-2018/7.2.1.7"
  | "en1992-4-2018/7.2.1.7-factors"
  | "en1992-4-2018/7.2.2.3.1"
  | "en1992-4-2018/7.2.2.3.2"
  | "en1992-4-2018/frp-transverse-shear"
  | "en1992-4-2018/7.2.2.5"
  | "en1992-4-2018/7.2.2.5-edge2"
  | "en1992-4-2018/7.2.2.5-edge4"
  | "en1992-4-2018/7.2.2.4"
  | "en1992-4-2018/7.2.2.4-headed"
  | "en1992-1-1-2004/8.4"
  | "en1992-1-1-2004/3.2.7"
  | "en1992-1-1-2023/11.4.2"
  | "en1992-1-1-2023/yield"
  | "aci440.11-22/25.4.2"
  | "aci440.11-22/20.2.2"
  | "aci440.11-22/creep-rupture"
  | "csa-s806-12/9.3.2"
  | "csa-s806-12/frp-rupture"
  | "csa-s6-14/16.8.4"
  | "aashto-gfrp2-2018/2.9.7.4"
  | "aashto-gfrp2-2018/2.4.2.1"
  | "aashto-gfrp2-2018/creep-rupture"
  | "jsce-1997/development"
  | "jsce-1997/frp-rupture"
  | "fib-mc2010/6.1.3"
  | "fib-mc2010/6.1.1-pull-out"
  | "fib-mc2010/6.1.1-splitting"
  | "fib-mc2010/6.1.3.3"
  | "fib-mc2010/yield"
  | "eota-tr069-2019/yield"
  | "eota-tr069-2019/cone"
  | "eota-tr069-2019/splitting"
  | "uniform-bond-1998/bond"
  | "uniform-bond-1998/cone"
  | "uniform-bond-1998/bar-rupture"
  | "uniform-bond-2006/bond"
  | "uniform-bond-2006/cone"
  | "uniform-bond-2006/bar-rupture"
  | "cone-bond-1993/tension"
  | "combined-cone-bond/tension"
  | "edge-shear-2005/shear"
  | "pryout-1995/cone"
  | "pryout-1995/bonded"
  | "dowel-1986/steel"
  | "dowel-1986/frp"
  | "wambeke-shield-2006/bond"
  | "orangun-1977/bond"
  | "aci408r-03/bond";

/** Modes that a provision predicts. */
export type Mode =
  | "bar_rupture"
  | "yield"
  | "concrete_breakout"
  | "bond"
  | "combined_cone_bond"
  | "splitting"
  | "bar_shear"
  | "concrete_edge_breakout"
  | "pryout";

/** Names of the options of each code. */
export interface CodeOptionNames {
  "aci318-19":
    | "supplementary_reinforcement"
    | "installation_category"
    | "ductile"
    | "edge_reinforcement"
    | "grout_pad"
    | "bond_table"
    | "sustained"
    | "seismic"
    | "headed_cast_in"
    | "product_k_c"
    | "product_c_ac"
    | "deep_breakout"
    | "rows_share_shear"
    | "literal_steel_shear"
    | "interaction_form"
    | "A_brg"
    | "e_h"
    | "welded_to_plate"
    | "coated_bar"
    | "transverse_index"
    | "confining_stirrups"
    | "drilled_in_for_comparison"
    | "steel_grade"
    | "torqued"
    | "cover_required"
    | "aggregate"
    | "product_spacing"
    | "product_edge"
    | "product_thickness";
  "aci318-19m": CodeOptionNames["aci318-19"];
  "aci440.1r-15": "C_E" | "lap_splice" | "extrapolate_below_20_d" | "sustained";
  "ccd-1995": "crack_factor" | "headed_cast_in" | "thin_member";
  "ccd-1995-cube": "crack_factor" | "headed_cast_in" | "thin_member" | "A_brg";
  "en1992-4-2018":
    | "gamma_c"
    | "gamma_inst"
    | "yield_ratio"
    | "headed_cast_in"
    | "dense_reinforcement"
    | "compression_lever_arm"
    | "sustained_share"
    | "psi_sus_0"
    | "c_cr_sp_ratio"
    | "h_min"
    | "splitting_with_factors"
    | "splitting_reinforced"
    | "k_8"
    | "supplementary_reinforcement"
    | "load_angle"
    | "front_row_along_edge"
    | "gamma_Ms_frp"
    | "edge_reinforcement"
    | "low_ductility"
    | "literal_steel_shear"
    | "grout_thickness"
    | "tension_share"
    | "interaction_form"
    | "lever_arm"
    | "alpha_M";
  "en1992-1-1-2004": "f_yk" | "gamma_s" | "gamma_c" | "count_cover";
  "en1992-1-1-2023": "f_yk" | "gamma_s" | "k_lb" | "k_cp_poor";
  "aci440.11-22": "C_E" | "lap_splice" | "sustained";
  "csa-s806-12": "semi_low_density" | "k_4_basalt";
  "csa-s6-14": "k_4" | "transverse_index";
  "aashto-gfrp2-2018": CodeOptionNames["aci440.11-22"];
  "jsce-1997": "alpha_2" | "gamma_c" | "transverse_index";
  "fib-mc2010":
    | "f_yk"
    | "gamma_cb"
    | "gamma_s"
    | "coated_bar"
    | "cover_ratio"
    | "k_m"
    | "splitting_capped"
    | "K_tr";
  "eota-tr069-2019":
    | "A_k"
    | "sp1"
    | "sp2"
    | "sp3"
    | "sp4"
    | "lb1"
    | "cover_ratio"
    | "k_m"
    | "K_tr"
    | "f_yk"
    | "gamma_c"
    | "gamma_inst"
    | "gamma_s"
    | "headed_cast_in"
    | "dense_reinforcement"
    | "compression_lever_arm";
  "uniform-bond-1998": "mean_bond_stress" | "crack_factor" | "headed_cast_in";
  "uniform-bond-2006": CodeOptionNames["uniform-bond-1998"];
  "cone-bond-1993": "mean_bond_stress";
  "combined-cone-bond": "mean_bond_stress" | "k_cone";
  "edge-shear-2005": "crack_factor" | "load_angle" | "headed_cast_in";
  "pryout-1995": "k_cp" | "mean_bond_stress" | "crack_factor" | "headed_cast_in";
  "dowel-1986": "k_q";
  "wambeke-shield-2006": never;
  "orangun-1977": "transverse_stress";
  "aci408r-03": "cover_ratio" | "transverse_area" | "R_r";
}
