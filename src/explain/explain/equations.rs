//! The laws of the model by name: formula, source and the file that holds each. A test compares them with those files.

use potset_base::SourceKind::{self, Assumed, Derived, Fitted, FromMemory, Published};
use potset_doc::in_pot::InPot::{
    self, Aged, AnyInhibitor, Base, Culture, Fat, GellingAgent, Gum, Lactase, MilkProtein, PeaProtein,
    Protein, SoyProtein, Starch, Strained, Thickener,
};
use potset_doc::pantry::BaseKind;

/// One law.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Equation {
    pub name: &'static str,
    pub formula: &'static str,
    pub kind: SourceKind,
    /// Reference, or how the form was chosen.
    pub source: &'static str,
    /// Where it stands below `src/`.
    pub file: &'static str,
    /// What must be in the pot for it to act; `None`: always.
    pub acts_on: Option<InPot>,
}

impl Equation {
    /// Kind and reference in one line.
    pub fn source_line(&self) -> String {
        let text = self.source.replace(['`', '[', ']'], "");
        let told =
            SourceKind::ALL.iter().any(|kind| text.starts_with(kind.words())) || text.contains("published");
        if told { text } else { format!("{}: {text}", self.kind.words()) }
    }

    /// The formula without the marks of the source text.
    pub fn formula_line(&self) -> String {
        self.formula.replace('`', "")
    }
}

/// Every pot has it.
const ALWAYS: Option<InPot> = None;

/// Declares the laws: a constant each, and the list of all.
macro_rules! laws {
    ($($key:ident = $name:literal, $formula:literal, $kind:ident, $source:literal, $file:literal, $acts_on:expr;)+) => {
        $(pub const $key: Equation = Equation {
            name: $name, formula: $formula, kind: $kind, source: $source, file: $file, acts_on: $acts_on,
        };)+
        /// All laws that a reading names.
        pub const ALL: &[Equation] = &[$($key),+];
    };
}

laws! {
    CHARGE_BALANCE = "Charge balance", "k [B(pH) − B(pH0)] + ([H+] − [H+]0)/f = L α(pH; pK_L) + A α(pH; pK_A)", Published, "published form (electroneutrality)", "science/acid_base/charge_balance.rs", ALWAYS;
    SITES = "Proton-binding sites, Hill 1910", "B(pH) = Σ N_j / (1 + 10^(n_j (pH − pK_j)))", Published, "published form, Hill 1910", "science/acid_base/sites.rs", ALWAYS;
    ACTIVITY = "Activity of the hydrogen ion, Davies 1962", "log10 f = -A (sqrt(I) / (1 + sqrt(I)) - 0.3 I)", Published, "published, Davies 1962, Ion Association (Butterworths)", "science/acid_base/activity.rs", ALWAYS;
    TITRATION = "Titratable acidity", "TA = TA0 + M_lactic/10^4 · (L + A)", Derived, "derived, both acids are titrated wholly at the end point pH 8.3", "science/acid_base/titration.rs", ALWAYS;
    ELECTRODE = "pH read in a cooled sample", "", FromMemory, "direction published, Fox and McSweeney, Dairy Chemistry and Biochemistry; slope from memory", "science/acid_base/electrode.rs", ALWAYS;
    CARDINAL_T = "Cardinal temperature model with inflection, Rosso et al. 1993", "γ = (T − Tmax)(T − Tmin)² / ((Topt − Tmin) [(Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T)])", Published, "published, Rosso et al. 1993, J Theor Biol 162:447", "science/kinetics/cardinal.rs", Some(Culture);
    CARDINAL_PH = "Cardinal pH model, Rosso et al. 1995", "γ = (pH − min)(pH − max) / ((pH − min)(pH − max) − (pH − opt)²)", Published, "published, Rosso et al. 1995, Appl Environ Microbiol 61:610", "science/kinetics/cardinal.rs", Some(Culture);
    LAG = "Baranyi-Roberts growth with lag", "q0 = 1/(e^h0 − 1)`, `dq/dt = μ_opt γ_T speed q`, `a = q/(1 + q)", Published, "published, Baranyi and Roberts 1994, Int J Food Microbiol 23:277", "science/kinetics/lag.rs", Some(Culture);
    MONOD = "Monod uptake, readiest sugar first", "γ_S = max_s w_s S/(S + Ks)", Published, "published form, Monod 1949, Annu Rev Microbiol 3:371", "science/kinetics/sugars.rs", Some(Culture);
    MASS = "Mass balance of fermentation", "", Derived, "derived, mass balance of homolactic and bifid fermentation with hydrolysis water; cell mass neglected", "science/kinetics/sugars.rs", Some(Culture);
    LUEDEKING = "Luedeking-Piret acid", "1e-6 N (α μ + β)", Published, "published, Luedeking and Piret 1959, J Biochem Microbiol Technol Eng 1:393", "science/kinetics/acid.rs", Some(Culture);
    RESTING = "Acid of resting cells in the cold", "exp(−Ea/R (1/T − 1/Tref))", Derived, "derived, cold-storage series of kinetics notes 6 (Ea 80-90 kJ/mol)", "science/kinetics/acid.rs", Some(Culture);
    ACID_STOP = "Stop by undissociated acid, Levenspiel 1980", "max(0, 1 − HL/HLmax)^n", Published, "published form, Levenspiel 1980, Biotechnol Bioeng 22:1671", "science/kinetics/inhibition.rs", Some(Culture);
    HELP = "Proto-cooperation", "1 − c + c N/(N + K)", Assumed, "assumed form; the facts behind it (peptides one way, formate and CO2 the other) are published", "science/kinetics/inhibition.rs", Some(Culture);
    INHIBITOR = "Slowing by an inhibitor, Hill 1910", "1/(1 + (C/C50)^n)", Published, "published form, Hill 1910; amounts in the pantry", "science/kinetics/inhibition.rs", Some(AnyInhibitor);
    DEATH = "Death by heat, Bigelow 1921", "k = ln 10 (1/D(T) − 1/D(Tmax))", Published, "published form, Bigelow 1921; D and z assumed, see the pantry", "science/kinetics/death.rs", Some(Culture);
    LACTASE = "Lactase, Michaelis and Menten with product", "v = Vmax E S/(Km (1 + P/Ki) + S)", Published, "published form, Michaelis and Menten 1913 with competitive product inhibition", "science/kinetics/lactase.rs", Some(Lactase);
    AGEING = "Ageing of dry cultures", "log10 N = log10 N0 − r(T) · months", Published, "first order published, Alaeddinoglu et al.; rates derived and from memory", "science/kinetics/ageing.rs", Some(Aged);
    WHEY_PROTEIN = "Whey-protein denaturation, Dannenberg and Kessler 1988", "D = 1 − (1 + ½ ∫k dt)^−2", Published, "published, order 1.5 by Dannenberg and Kessler 1988", "science/texture/whey_protein.rs", Some(MilkProtein);
    GEL_RISE = "Development of an acid gel with pH", "s = ((pH_gel − pH)/(pH_gel − 4.6))^1.5", Assumed, "assumed shape; gelation pH from memory, direction published, Anema et al. 2004", "science/texture/gel.rs", Some(Protein);
    DAIRY_GEL = "Stiffness of the dairy gel", "G42 = (10 + 190 D^1.5) (p/3.3)^m`, `m = 2.6 + 1.4 (1 − D)", Assumed, "texture notes 6.3; each constant's own source in `assets/parameters.ron`", "science/texture/gel.rs", Some(MilkProtein);
    SOY_GEL = "Stiffness of the soy gel", "500 (p/3.5)^2.7 s(pH) e^(0.015 (Tinc − T))", Derived, "derived, vane stress of set soy yogurt 2.3 to 5.5 times that of dairy of like protein, exponent 2.2-2.8", "science/texture/gel.rs", Some(SoyProtein);
    PEA_GEL = "Stiffness of the pea gel", "100 (p/5)³ s(pH) e^(0.015 (Tinc − T))", Assumed, "assumed, order of magnitude only; 10 % pea gives 800 Pa, in line with Klost and Drusch 2019", "science/texture/gel.rs", Some(PeaProtein);
    PACKING = "Starch by swollen volume, Christianson and Bagley 1983", "x = cQ", Published, "published collapse on cQ, Christianson and Bagley 1983; the bend at 1 assumed", "science/texture/starch.rs", Some(Starch);
    PASTE = "Stress of a starch paste", "K1 x^3.6 e^(0.02 (25 − T)) γ^0.4", Assumed, "form and K1 assumed; the exponent derived from doses of rice starch in water", "science/texture/starch.rs", Some(Starch);
    LOOSE = "Loose granules, Quemada 1977", "(1 − y)^−2", Published, "published form, Quemada 1977, for heated starch Rao and Tattiyakul 1999", "science/texture/serum.rs", Some(Starch);
    COOKING = "Cooking, dissolving and swelling of thickeners", "1/(1 + e^(−(T − Tp)/w))", Assumed, "assumed forms on published ranges, texture notes 6.2", "science/texture/activation.rs", Some(Thickener);
    AGENT = "Stiffness of a gelling agent", "G' = G_ref (c/c_ref)^n · c⁴/(c⁴ + (0.85 c_least)⁴)", FromMemory, "from memory for agar and gelatin, see the pantry; how it fades below the least dose assumed", "science/texture/gelling_agent.rs", Some(GellingAgent);
    GUM = "Power law of a gum", "τ = K c^a γ^n", FromMemory, "power laws from memory or derived, each in the pantry", "science/texture/gum.rs", Some(Gum);
    FAT_NETWORK = "Network of solid fat", "f_net · 3·10^5 (φ · SFC)^3 (1 + k_sour s)", Assumed, "assumed form (fractal law of fat crystals)", "science/texture/fat.rs", Some(Fat);
    EMULSION = "Thickening by fat droplets", "r = (1 − φ/φ_m)^(−2.5 φ_m (1 + k))", Derived, "derived, Krieger and Dougherty 1959 (published) with the room of clusters in the exponent", "science/texture/emulsion.rs", Some(Fat);
    FLOW = "Flow of a broken gel", "G' (0.03 + 0.003 γ^0.65)", Fitted, "fitted to stirred low-fat yogurt, Dairy Sci Technol 2009 dst0909 Table VI (n published there)", "science/texture/flow.rs", ALWAYS;
    THICKNESS = "Thickness, Weber-Fechner law", "100 log10(η50 / 3 mPa·s) / log10(2000)", Derived, "derived, Weber-Fechner law and just-noticeable steps of Camacho et al. 2015", "science/texture/sensory.rs", ALWAYS;
    LINE_SPREAD = "Line spread", "5.44 − 1.11 log10(η, mPa·s)", Fitted, "fitted to four published points, PubMed 15129413, within 0.1 cm", "science/texture/sensory.rs", ALWAYS;
    SLUMP = "Slump in a trough", "L = (9/8 q² ρ g / τ_y)^(1/3) − 5", Derived, "derived, lubrication estimate; yield stress as the controlling property published, Perona 2005", "science/texture/sensory.rs", ALWAYS;
    STOKES = "Rising droplets and clusters", "v/d² = Δρ g (1 + k) (1 − φ)^(5 (1 + k)) (1 + dep) / (18 η) · 1/(1 + (τ_y/(Y Δρ g d))⁴)", Derived, "derived, Stokes 1851 with the hindrance of Richardson and Zaki 1954 (both published), on clusters", "science/texture/separation.rs", Some(Fat);
    CLEARING = "Height that clears", "L (1 − e^(−d² s/(H L)))", Derived, "derived from [`rate`]; spread of sizes assumed", "science/texture/separation.rs", Some(Fat);
    DISSOLVED = "Thickening by dissolved starch, Huggins 1942", "1 + [η]c + 0.4 ([η]c)²", Published, "published form, Huggins 1942, J Am Chem Soc 64:2716; intrinsic viscosity of starch from memory", "science/texture/serum.rs", Some(Starch);
    CLUSTERS = "Clusters of droplets", "k_plant + k_hom h + k_sour s (1 + h) + k_solid · SFC", Assumed, "milk fat fitted with [`thickening`]; plant fat assumed", "science/texture/emulsion.rs", Some(Fat);
    POWER_LAW = "Power law of the flow", "η = K γ^(n − 1)", Derived, "derived, Ostwald-de Waele law through two points of the forecast", "science/texture/laboratory.rs", ALWAYS;
    FIRMNESS = "Force on a probe", "F = 8 G' a d", Derived, "derived, rigid flat cylinder on an elastic half-space (Sneddon 1965)", "science/texture/laboratory.rs", ALWAYS;
    WHEY = "Whey of a pot", "30 (p/3.3)^−1.3 e^(−0.04 F) e^(0.05 (Tinc − 42)) Π e^(−c/c0)", Assumed, "texture notes 5; each constant's own source in `assets/parameters.ron`", "science/texture/wheying.rs", ALWAYS;
    STRAINING = "Draining in a cloth", "w = (1 − p/p_end) (1 − e^(−h/τ))", Assumed, "assumed form; drainage by Darcy slows as the gel packs (texture notes 5.1)", "science/texture/finished.rs", Some(Strained);
    TANG = "Tang by undissociated lactic acid", "", Assumed, "assumed thresholds, ordered by published end points", "science/sensory.rs", ALWAYS;
    SWEETNESS = "Sucrose equivalents", "", FromMemory, "from memory, sweetness against sucrose", "science/sensory.rs", ALWAYS;
    NEWTON = "Newton's law of heating and cooling", "T = Tenv + (T0 − Tenv) e^(−(t − t0)/τ)", Published, "published, Newton's law of cooling (heat-transfer textbooks)", "science/thermal/course.rs", ALWAYS;
    TIME_TO = "Time to a temperature", "t = −τ ln((T − Tenv)/(T0 − Tenv))", Published, "published, Newton's law of cooling (heat-transfer textbooks)", "science/thermal/course.rs", ALWAYS;
    READY = "Every goal holds", "", Assumed, "assumed, `ready` and `hygiene` groups of the parameters", "judge/readiness.rs", ALWAYS;
    DOSE = "Powder to weigh", "packet's dose × rate × litres", Derived, "derived, by the packet's own rate", "forecast/cultures.rs", ALWAYS;
    CREAM = "Share of cream, and the classes of Codex CXS 240", "", Published, "published, Codex CXS 240-2003 section 3.1.3", "forecast/facts.rs", Some(Base(BaseKind::Coconut));
}
