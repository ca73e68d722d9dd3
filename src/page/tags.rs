//! The tag tree while it grows.

use std::cell::RefCell;

use super::model::{Kid, Node, NodeId, Role};

/// Nodes made so far. Kids that are nodes are known at once, content when pages are put together.
pub(crate) struct Tags {
    nodes: RefCell<Vec<Node>>,
}

/// A node of a sheet's tree as the tree of the packet counts it; the root stays the root.
pub(crate) fn shifted(node: NodeId, by: usize) -> NodeId {
    if node == NodeId::ROOT { node } else { NodeId(node.0 + by) }
}

impl Tags {
    pub fn new() -> Self {
        let tags = Self { nodes: RefCell::default() };
        tags.push(Role::Document, NodeId::ROOT);
        tags
    }

    fn push(&self, role: Role, parent: NodeId) -> NodeId {
        let mut nodes = self.nodes.borrow_mut();
        let id = NodeId(nodes.len());
        nodes.push(Node {
            role,
            parent,
            kids: Vec::new(),
            alt: None,
            actual_text: None,
            bbox: None,
            title: None,
            to_fill_in: false,
        });
        id
    }

    /// A new last kid of `parent`.
    pub fn node(&self, parent: NodeId, role: Role) -> NodeId {
        let id = self.push(role, parent);
        self.nodes.borrow_mut()[parent.0].kids.push(Kid::Node(id));
        id
    }

    /// A picture with the words in its place.
    pub fn figure(&self, parent: NodeId, alt: &str) -> NodeId {
        let id = self.node(parent, Role::Figure);
        self.nodes.borrow_mut()[id.0].alt = Some(alt.to_owned());
        id
    }

    /// A box to tick or a blank, with words in its place.
    pub fn blank(&self, parent: NodeId, alt: &str) -> NodeId {
        let id = self.figure(parent, alt);
        self.nodes.borrow_mut()[id.0].to_fill_in = true;
        id
    }

    pub fn count(&self) -> usize {
        self.nodes.borrow().len()
    }

    /// Forgets the nodes from a count on.
    pub fn truncate(&self, count: usize) {
        let mut nodes = self.nodes.borrow_mut();
        nodes.truncate(count.max(1));
        for node in nodes.iter_mut() {
            node.kids.retain(|kid| !matches!(kid, Kid::Node(id) if id.0 >= count));
        }
    }

    pub fn set_title(&self, id: NodeId, title: &str) {
        self.nodes.borrow_mut()[id.0].title = Some(title.to_owned());
    }

    /// Takes in the tree of a sheet: the kids of its root become kids of this root. Returns what its
    /// other nodes are shifted by, for [`shifted`].
    pub fn take_in(&self, sheet: Vec<Node>) -> usize {
        let mut nodes = self.nodes.borrow_mut();
        let by = nodes.len() - 1;
        for (index, mut node) in sheet.into_iter().enumerate() {
            for kid in &mut node.kids {
                if let Kid::Node(id) = kid {
                    *id = shifted(*id, by);
                }
            }
            if index == 0 {
                nodes[0].kids.append(&mut node.kids);
            } else {
                node.parent = shifted(node.parent, by);
                nodes.push(node);
            }
        }
        by
    }

    pub fn into_nodes(self) -> Vec<Node> {
        self.nodes.into_inner()
    }
}
