//! The public functions of `src/rules`, found in the source, each with the place it says it comes from.

use std::path::{Path, PathBuf};

use syn::{Attribute, Expr, ImplItem, Item, Lit, Meta, Type, Visibility};

/// A public function of the rules.
pub(crate) struct Function {
    /// Its path from `rules`, such as `allowable_stress::bending::slenderness`.
    pub(crate) name: String,
    /// The file, from the root of the project.
    pub(crate) file: String,
    /// The first sentence under `# Source` in its documentation.
    pub(crate) source: String,
}

/// All of them, in the order of files and of the source.
pub(crate) fn functions() -> Vec<Function> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = Vec::new();
    rust_files(&root.join("src/rules"), &mut files);
    files.sort();
    let mut out = Vec::new();
    for path in files {
        let text = std::fs::read_to_string(&path).expect("a source file");
        let syntax = syn::parse_file(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let inside = path.strip_prefix(root.join("src/rules")).expect("a file of the rules").with_extension("");
        let module: Vec<_> = inside.iter().filter_map(|p| p.to_str()).filter(|p| *p != "mod").collect();
        let file = path.strip_prefix(root).expect("inside the project").display().to_string();
        collect(&syntax.items, &module.join("::"), &file, &mut out);
    }
    assert!(out.len() > 100, "only {} public functions were found", out.len());
    out
}

fn rust_files(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("a file").path();
        match path.is_dir() {
            true => rust_files(&path, out),
            false if path.extension().is_some_and(|e| e == "rs") => out.push(path),
            false => {}
        }
    }
}

fn collect(items: &[Item], module: &str, file: &str, out: &mut Vec<Function>) {
    let name = |parts: &[&str]| parts.iter().filter(|p| !p.is_empty()).copied().collect::<Vec<_>>().join("::");
    let mut add = |name: String, attrs: &[Attribute]| {
        out.push(Function { name, file: file.to_owned(), source: source(attrs) });
    };
    for item in items {
        match item {
            Item::Fn(f) if public(&f.vis) => add(name(&[module, &f.sig.ident.to_string()]), &f.attrs),
            Item::Impl(block) if block.trait_.is_none() => {
                for f in &block.items {
                    if let ImplItem::Fn(f) = f
                        && public(&f.vis)
                    {
                        add(name(&[module, &type_name(&block.self_ty), &f.sig.ident.to_string()]), &f.attrs);
                    }
                }
            }
            _ => {}
        }
    }
    for item in items {
        if let Item::Mod(inner) = item
            && public(&inner.vis)
            && let Some((_, items)) = &inner.content
        {
            collect(items, &name(&[module, &inner.ident.to_string()]), file, out);
        }
    }
}

fn public(visibility: &Visibility) -> bool {
    matches!(visibility, Visibility::Public(_))
}

fn type_name(t: &Type) -> String {
    match t {
        Type::Path(p) => p.path.segments.last().map(|s| s.ident.to_string()).unwrap_or_default(),
        _ => String::new(),
    }
}

/// The first sentence of the paragraph under `# Source`.
fn source(attrs: &[Attribute]) -> String {
    let lines = attrs.iter().filter_map(|a| match &a.meta {
        Meta::NameValue(m) if m.path.is_ident("doc") => match &m.value {
            Expr::Lit(e) => match &e.lit {
                Lit::Str(s) => Some(s.value().trim().to_owned()),
                _ => None,
            },
            _ => None,
        },
        _ => None,
    });
    let mut under = lines.skip_while(|l| l != "# Source").skip(1).skip_while(String::is_empty);
    let paragraph: Vec<String> = under.by_ref().take_while(|l| !l.is_empty()).collect();
    paragraph.join(" ")
}
